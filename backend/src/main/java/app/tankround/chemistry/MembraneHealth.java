package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Temperature;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How well a reverse-osmosis membrane does against its first days: flow brought to 25 °C ({@link ReverseOsmosis}) and the
 * share of salt held back. Both flows are brought to one pressure where both pressures are known; the osmotic pressure of
 * tap water, about a tenth of a bar for each 150 mg/L, is left out of both.
 *
 * @param flowShare of the first flow, both at 25 °C; empty without two flows
 * @param rejection share of the feed's solids held back; empty without both contents
 * @param notes what is wrong, the worst first
 */
public record MembraneHealth(OptionalDouble flowShare, OptionalDouble rejection, List<PurifiedWaterNote> notes) {

    /** That much less is the sign to clean or change it: 10 to 15 % in manuals of industrial membranes, from memory. */
    public static final double LOWEST_FLOW_SHARE = 0.85;

    /** As far above the first flow nothing but damage or more pressure takes it; common practice, no source. */
    public static final double HIGHEST_FLOW_SHARE = 1.25;

    /** A new thin-film membrane holds back 95 to 98 %; below nine tenths it goes. Common practice, no source. */
    public static final double USUAL_LOWEST_REJECTION = 0.9;

    public MembraneHealth {
        notes = List.copyOf(notes);
    }

    /**
     * A measured flow of purified water.
     *
     * @param litresPerDay above 0
     * @param temperature of the feed, 4 to 40 °C
     * @param kilopascals pressure before the membrane, where it was read
     */
    public record Flow(double litresPerDay, Temperature temperature, OptionalDouble kilopascals) {

        public Flow {
            Ranges.require(InputKind.VOLUME, litresPerDay, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        }

        /** What it would be at 25 °C, in litres a day. */
        public double at25() {
            return ReverseOsmosis.flowAt25(ReverseOsmosis.temperatureCorrection(temperature), litresPerDay);
        }
    }

    /**
     * Judges a membrane.
     *
     * @param first flow of this membrane
     * @param now its newest flow, later than the first
     * @param feed dissolved solids before it, in mg/L
     * @param permeate the same after it
     * @param lowestRejection below which it is to be changed, 0 to 1
     */
    public static MembraneHealth of(
            Optional<Flow> first,
            Optional<Flow> now,
            OptionalDouble feed,
            OptionalDouble permeate,
            double lowestRejection) {
        Ranges.require(InputKind.FRACTION, lowestRejection, 0, 1);
        List<PurifiedWaterNote> notes = new ArrayList<>();
        OptionalDouble rejection = feed.isPresent() && permeate.isPresent() && feed.getAsDouble() > 0
                ? OptionalDouble.of(ReverseOsmosis.rejection(feed.getAsDouble(), permeate.getAsDouble()))
                : OptionalDouble.empty();
        rejection.ifPresent(held -> {
            if (held < 0) {
                notes.add(PurifiedWaterNote.of(PurifiedWaterCode.PERMEATE_WORSE_THAN_FEED));
            } else if (held < lowestRejection) {
                notes.add(PurifiedWaterNote.of(PurifiedWaterCode.REJECTION_LOW, 100 * held, 100 * lowestRejection));
            }
        });
        if (first.isEmpty() || now.isEmpty()) {
            return new MembraneHealth(OptionalDouble.empty(), rejection, notes);
        }
        boolean pressures = first.get().kilopascals().orElse(0) > 0
                && now.get().kilopascals().orElse(0) > 0;
        double pressure = pressures
                ? first.get().kilopascals().getAsDouble()
                        / now.get().kilopascals().getAsDouble()
                : 1;
        double share = now.get().at25() * pressure / first.get().at25();
        boolean off = share < LOWEST_FLOW_SHARE || share > HIGHEST_FLOW_SHARE;
        if (off) {
            notes.add(PurifiedWaterNote.of(
                    share < 1 ? PurifiedWaterCode.FLOW_DOWN : PurifiedWaterCode.FLOW_UP, 100 * share));
        }
        if (off && !pressures) {
            notes.add(PurifiedWaterNote.of(PurifiedWaterCode.PRESSURE_UNKNOWN));
        }
        return new MembraneHealth(OptionalDouble.of(share), rejection, notes);
    }
}
