package app.tankround.loads;

/**
 * What was decided about filling RO/DI water at a stop for later ones.
 *
 * @param litres that were decided on; 0 where nothing was
 * @param sickThere whether any system at the site is in quarantine, suspected or under treatment, so that nothing is filled
 */
record RefillHere(double litres, boolean sickThere) {

    static final RefillHere NOTHING = new RefillHere(0, false);

    RefillHere and(RefillHere other) {
        return new RefillHere(litres + other.litres, sickThere || other.sickThere);
    }
}
