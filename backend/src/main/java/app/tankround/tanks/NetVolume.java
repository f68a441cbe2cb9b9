package app.tankround.tanks;

import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import org.jspecify.annotations.Nullable;
import org.springframework.data.relational.core.mapping.Column;

/**
 * How much water circulates in a system, and how that is known. What the calculation needs is kept beside a stated
 * volume too, so that nothing is lost when somebody measures.
 *
 * @param net more than 0 and at most 10,000,000 litres
 * @param display volume of the tank as built, without what stands in it
 * @param displacement water that sand, rock and equipment take up; less than the display
 * @param sump water in the sump at its running mark, and in whatever else is piped in
 */
public record NetVolume(
        @Column("volume_basis") VolumeBasis basis,
        @Column("net_volume_l") Volume net,
        @Column("display_volume_l") @Nullable Volume display,
        @Column("displacement_l") @Nullable Volume displacement,
        @Column("sump_volume_l") @Nullable Volume sump) {

    /** Litres; larger than any public aquarium's largest single exhibit, so that a slip of the finger is noticed. */
    public static final double LARGEST_LITRES = 10_000_000;

    /** Litres: a tenth of a millilitre would be a slip of the finger too. */
    public static final double SMALLEST_LITRES = 0.1;

    /** @throws FieldRefusal naming the field, the refused value in litres and what is accepted */
    public NetVolume {
        if (display != null) {
            display = within("displayVolume", display.litres(), SMALLEST_LITRES);
        }
        if (displacement != null) {
            displacement = within("displacement", displacement.litres(), 0);
        }
        if (sump != null) {
            sump = within("sumpVolume", sump.litres(), 0);
        }
        if (display != null && displacement != null && displacement.litres() >= display.litres()) {
            throw new FieldRefusal(
                    "displacement", "tanks.displacement-fills-display", displacement.litres(), display.litres());
        }
        if (basis == VolumeBasis.CALCULATED && display == null) {
            throw new FieldRefusal("displayVolume", "tanks.display-volume-missing");
        }
        net = within("netVolume", net.litres(), SMALLEST_LITRES);
    }

    /** @param litres as somebody stated them */
    public static NetVolume stated(double litres) {
        return new NetVolume(VolumeBasis.STATED, within("netVolume", litres, SMALLEST_LITRES), null, null, null);
    }

    /** Display minus displacement plus sump, all in litres. */
    public static NetVolume calculated(double display, double displacement, double sump) {
        return calculated(
                within("displayVolume", display, SMALLEST_LITRES),
                within("displacement", displacement, 0),
                within("sumpVolume", sump, 0));
    }

    public static NetVolume calculated(Volume display, @Nullable Volume displacement, @Nullable Volume sump) {
        double taken = displacement == null ? 0 : displacement.litres();
        double added = sump == null ? 0 : sump.litres();
        if (taken >= display.litres()) {
            throw new FieldRefusal("displacement", "tanks.displacement-fills-display", taken, display.litres());
        }
        return new NetVolume(
                VolumeBasis.CALCULATED, Volume.ofLitres(display.litres() - taken + added), display, displacement, sump);
    }

    static Volume within(String field, double litres, double smallest) {
        if (!(litres >= smallest && litres <= LARGEST_LITRES)) {
            throw new FieldRefusal(field, "web.number-out-of-range", litres, smallest, LARGEST_LITRES);
        }
        return Volume.ofLitres(litres + 0.0);
    }
}
