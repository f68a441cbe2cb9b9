package app.tankround.chemistry;

import app.tankround.units.Hardness;
import app.tankround.units.InputKind;
import app.tankround.units.Mass;
import app.tankround.units.MassConcentration;
import app.tankround.units.Ranges;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;

/** How fresh water for a change is made to suit the system: its hardness by blending and by salts, its temperature by warming. */
public final class FreshWaterMatch {

    /**
     * Of the hardness that salts bring so much is calcium by amount of substance, the rest magnesium; common practice, no source.
     */
    public static final double CALCIUM_SHARE = 0.75;

    /** A planned change stays under this a day, K; ideal of fish-veterinary practice. */
    public static final double TANK_MAY_MOVE_K = 0.5;

    /** However small the share, the water where it enters is no further off, K; own choice, no source. */
    public static final double WATER_MAY_DIFFER_K = 4;

    private FreshWaterMatch() {}

    /**
     * Salts to stir into water.
     *
     * @param calciumChloride as dihydrate; gets hot in water
     * @param magnesiumSulfate as heptahydrate
     */
    public record Salts(Mass calciumChloride, Mass magnesiumSulfate) {

        public Mass together() {
            return calciumChloride.plus(magnesiumSulfate);
        }
    }

    /** From what to what temperature water may be. */
    public record Span(Temperature low, Temperature high) {}

    /**
     * The share of tap water in a blend with RO/DI water, which has no hardness.
     *
     * @param tap harder than nothing
     * @param wanted not harder than the tap water
     * @return 0 to 1
     */
    public static double tapShare(Hardness tap, Hardness wanted) {
        Ranges.require(InputKind.MASS_CONCENTRATION, wanted.millimolesPerLitre(), 0, tap.millimolesPerLitre());
        return wanted.millimolesPerLitre()
                / Ranges.require(
                        InputKind.MASS_CONCENTRATION,
                        tap.millimolesPerLitre(),
                        Double.MIN_NORMAL,
                        Double.POSITIVE_INFINITY);
    }

    /**
     * What raises the hardness of water: stoichiometry, of pure salts.
     *
     * @param to not below {@code from}
     */
    public static Salts salts(Volume volume, Hardness from, Hardness to) {
        Ranges.require(
                InputKind.MASS_CONCENTRATION,
                to.millimolesPerLitre(),
                from.millimolesPerLitre(),
                Double.POSITIVE_INFINITY);
        double rise = to.millimolesPerLitre() - from.millimolesPerLitre();
        Hardness calcium = Hardness.ofMillimolesPerLitre(rise * CALCIUM_SHARE);
        Hardness magnesium = Hardness.ofMillimolesPerLitre(rise * (1 - CALCIUM_SHARE));
        return new Salts(
                SupplementDose.forMetal(
                        Salt.CALCIUM_CHLORIDE_DIHYDRATE,
                        volume,
                        new MassConcentration(0),
                        new MassConcentration(calcium.asMilligramsPerLitreCalcium()),
                        1),
                SupplementDose.forMetal(
                        Salt.MAGNESIUM_SULFATE_HEPTAHYDRATE,
                        volume,
                        new MassConcentration(0),
                        new MassConcentration(magnesium.asMilligramsPerLitreMagnesium()),
                        1));
    }

    /**
     * How warm water for a change may be so that the tank moves by no more than {@value #TANK_MAY_MOVE_K} K: what comes in has
     * {@code share} of the heat, equal heat capacities taken for granted.
     *
     * @param tank that it is kept at
     * @param share of the water that is changed, above 0 to 1
     */
    public static Span warmth(Temperature tank, double share) {
        double within = Math.min(
                WATER_MAY_DIFFER_K, TANK_MAY_MOVE_K / Ranges.require(InputKind.FRACTION, share, Double.MIN_NORMAL, 1));
        return new Span(Temperature.ofCelsius(tank.celsius() - within), Temperature.ofCelsius(tank.celsius() + within));
    }
}
