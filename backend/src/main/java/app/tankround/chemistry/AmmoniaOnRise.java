package app.tankround.chemistry;

import app.tankround.units.Alkalinity;
import app.tankround.units.InputKind;
import app.tankround.units.MassConcentration;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;

/**
 * What a rise of pH makes of the ammonia that is there: harmless ammonium becomes un-ionised ammonia. In an old neglected
 * system, low in pH and alkalinity, a total that nobody noticed turns toxic when the water is put right.
 *
 * @param phBefore now
 * @param phAfter expected after the step, on the NBS scale
 * @param before un-ionised ammonia now, expressed as the total is
 * @param after the same after the step
 * @param bearableTotal total ammonia of which, at the pH after the step, as much is un-ionised as harms fish
 */
public record AmmoniaOnRise(
        double phBefore,
        double phAfter,
        MassConcentration before,
        MassConcentration after,
        MassConcentration bearableTotal) {

    /** mg/L of un-ionised ammonia from which fish are harmed: University of Florida IFAS, fact sheet FA16. */
    public static final double HARMS_FROM = 0.05;

    /** Ranges as those of {@link UnionisedAmmonia}. */
    public static AmmoniaOnRise of(
            MassConcentration total, double phBefore, double phAfter, Temperature temperature, Salinity salinity) {
        double shareBefore = UnionisedAmmonia.fraction(phBefore, temperature, salinity);
        double shareAfter = UnionisedAmmonia.fraction(phAfter, temperature, salinity);
        return new AmmoniaOnRise(
                phBefore,
                phAfter,
                new MassConcentration(total.milligramsPerLitre() * shareBefore),
                new MassConcentration(total.milligramsPerLitre() * shareAfter),
                new MassConcentration(HARMS_FROM / shareAfter));
    }

    /**
     * pH that follows from a change of alkalinity while carbon dioxide stays as it is: carbon dioxide is alkalinity times
     * 10^-pH times a constant, so pH moves by the logarithm of the ratio. For water whose alkalinity is bicarbonate; where
     * borate carries part of it the rise is smaller, and while gas exchange lags behind a carbonate it is larger.
     *
     * @param from above 0: from none at all no ratio follows
     */
    public static double phWithAlkalinity(double ph, Alkalinity from, Alkalinity to) {
        Ranges.require(InputKind.PH, ph, 4, 11);
        double low = Ranges.require(
                InputKind.ALKALINITY, from.milliequivalentsPerLitre(), Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        double high = Ranges.require(
                InputKind.ALKALINITY, to.milliequivalentsPerLitre(), Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        double ratio = high / low;
        double rise = Math.log(ratio) / Math.log(10);
        return Math.min(11, Math.max(4, ph + rise));
    }

    /** Whether the step would bring as much un-ionised ammonia as harms fish, and more than there is. */
    public boolean harms() {
        return after.milligramsPerLitre() >= HARMS_FROM && phAfter > phBefore;
    }
}
