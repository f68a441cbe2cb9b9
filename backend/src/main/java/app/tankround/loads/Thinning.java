package app.tankround.loads;

import app.tankround.chemistry.SaltWater;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;

/**
 * Salt water that is made at a site of saltier water from the van and the site's own RO/DI water: the salt stays the same, and
 * masses add up.
 *
 * @param from what is carried
 * @param carried of it, at 25 °C
 * @param purified RO/DI water of the site, at 20 °C
 */
record Thinning(Salinity from, Salinity to, Volume carried, Volume purified) {

    /**
     * How much it takes of both.
     *
     * @param needed at 25 °C
     * @param from above {@code to}
     */
    static Thinning of(Volume needed, Salinity from, Salinity to) {
        Mass all = SaltWater.mass(needed, to, LoadRules.MIXED_AT);
        double part = SaltWater.gramsPerKilogram(to) / SaltWater.gramsPerKilogram(from);
        return new Thinning(
                from,
                to,
                SaltWater.volume(Mass.ofKilograms(all.kilograms() * part), from, LoadRules.MIXED_AT),
                SaltWater.volume(
                        Mass.ofKilograms(all.kilograms() * (1 - part)), Salinity.ofPractical(0), LoadRules.WATER_AT));
    }

    /**
     * Whether that is lighter than water of its own, both in the van's usual drums; what it is made in goes along empty.
     *
     * @param drum that a drum holds
     */
    boolean isLighter(Volume needed, Volume drum, Mass drumEmpty) {
        double own = SaltWater.mass(needed, to, LoadRules.MIXED_AT).kilograms();
        double brought = SaltWater.mass(carried, from, LoadRules.MIXED_AT).kilograms()
                + Drums.of(carried, drum).count() * drumEmpty.kilograms();
        return brought < own;
    }
}
