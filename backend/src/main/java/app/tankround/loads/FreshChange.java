package app.tankround.loads;

import app.tankround.chemistry.FreshWaterMatch;
import app.tankround.chemistry.FreshWaterMatch.Salts;
import app.tankround.clients.SiteView;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.SystemKind;
import app.tankround.units.Hardness;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What a change of fresh water is made of so that its hardness is that of the system:
 *
 * <ul>
 *   <li>tap water alone where it is within the target;
 *   <li>tap water and RO/DI water where it is harder;
 *   <li>tap water and hardness salts where it is softer;
 *   <li>RO/DI water and hardness salts where there is no tap, or nobody knows how hard its water is and there is RO/DI water.
 * </ul>
 *
 * @param tap litres, to be conditioned
 * @param purified litres of RO/DI water
 * @param salts to be stirred in
 * @param tapUnknown whether tap water is used although nobody knows whether it suits
 */
record FreshChange(BigDecimal tap, BigDecimal purified, Optional<Salts> salts, boolean tapUnknown) {

    /** The name under which hardness salts in the catalogue are found. */
    static final String SALTS = "Hardness salts";

    private static final int DECIMALS = 1;

    /** @param litres that are changed, above 0 */
    static FreshChange of(SystemWork work, BigDecimal litres) {
        SuitableWater.Hardnesses wanted = work.suits().hardness().orElse(null);
        Hardness tap = work.suits().tap().orElse(null);
        SiteView site = work.site();
        boolean tapAllowed = site.ownTap() && work.system().kind() != SystemKind.SUPPLY;
        if (tapAllowed && tap != null && wanted != null) {
            return matched(litres, tap, wanted);
        }
        if (tapAllowed && !site.ownRoDi()) {
            return new FreshChange(litres, BigDecimal.ZERO, Optional.empty(), wanted != null);
        }
        return new FreshChange(
                BigDecimal.ZERO,
                litres,
                Optional.ofNullable(wanted)
                        .filter(range -> range.isBelow(Hardness.ofDgh(0)))
                        .map(range -> salts(litres, Hardness.ofDgh(0), range)),
                false);
    }

    private static FreshChange matched(BigDecimal litres, Hardness tap, SuitableWater.Hardnesses wanted) {
        if (wanted.hold(tap)) {
            return new FreshChange(litres, BigDecimal.ZERO, Optional.empty(), false);
        }
        if (wanted.isBelow(tap)) {
            return new FreshChange(litres, BigDecimal.ZERO, Optional.of(salts(litres, tap, wanted)), false);
        }
        BigDecimal ofTap = litres.multiply(BigDecimal.valueOf(FreshWaterMatch.tapShare(tap, wanted.wanted())))
                .setScale(DECIMALS, RoundingMode.HALF_UP);
        return new FreshChange(ofTap, litres.subtract(ofTap), Optional.empty(), false);
    }

    private static Salts salts(BigDecimal litres, Hardness from, SuitableWater.Hardnesses wanted) {
        return FreshWaterMatch.salts(Volume.ofLitres(litres.doubleValue()), from, wanted.wanted());
    }

    /** The salts as a dose that goes along. */
    Optional<TaskView> dose() {
        return salts.map(each -> TaskView.dose(SALTS, grams(each.together().inGrams()), "g"));
    }

    private static BigDecimal grams(double grams) {
        return BigDecimal.valueOf(grams).setScale(DECIMALS, RoundingMode.UP);
    }

    private String tapOnly() {
        if (tapUnknown) {
            return "loads.water.tap-unknown";
        }
        return salts.isPresent() ? "loads.water.tap-soft" : "loads.water.tap";
    }

    /** How it is made up, for whoever does it. */
    List<LoadText> making(SystemWork work) {
        Volume ofTap = Volume.ofLitres(tap.doubleValue());
        Volume ofPurified = Volume.ofLitres(purified.doubleValue());
        List<LoadText> making = new ArrayList<>();
        if (tap.signum() > 0 && purified.signum() > 0) {
            making.add(LoadText.of(
                    "loads.water.blend",
                    ofTap,
                    work.suits().tap().orElseThrow(),
                    ofPurified,
                    work.suits().hardness().orElseThrow().wanted()));
        } else if (tap.signum() > 0) {
            making.add(LoadText.of(tapOnly(), ofTap));
        } else {
            making.add(LoadText.of("loads.water.purified", ofPurified));
        }
        salts.ifPresent(each -> making.add(LoadText.of(
                "loads.water.salts",
                grams(each.calciumChloride().inGrams()),
                grams(each.magnesiumSulfate().inGrams()),
                work.suits().hardness().orElseThrow().wanted())));
        return making;
    }
}
