package app.tankround.loads;

import app.tankround.units.Volume;

/**
 * A volume in drums of one size.
 *
 * @param full how many are full
 * @param rest what is in the last one, less than a drum; nothing if all are full
 */
record Drums(int full, Volume rest) {

    /** Less than a sip is rounding, not a drum of its own. */
    private static final double ROUNDING_L = 1e-6;

    static Drums of(Volume volume, Volume drum) {
        int full = (int) Math.floor((volume.litres() + ROUNDING_L) / drum.litres());
        double rest = volume.litres() - full * drum.litres();
        return new Drums(full, Volume.ofLitres(rest > ROUNDING_L ? rest : 0));
    }

    /** How many there are in all. */
    int count() {
        return hasRest() ? full + 1 : full;
    }

    boolean hasRest() {
        return rest.litres() > 0;
    }
}
