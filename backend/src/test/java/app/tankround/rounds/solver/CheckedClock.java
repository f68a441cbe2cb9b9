package app.tankround.rounds.solver;

/** A crew's clock for the checkers: it stops for the break at the moment at which that is due, whatever is being done. */
final class CheckedClock {

    private final Rest rest;
    private boolean rested;
    private long now;

    CheckedClock(Rest rest, long start) {
        this.rest = rest;
        now = start;
    }

    long now() {
        return now;
    }

    /** Drives, works or disinfects for so long. */
    void spend(long seconds) {
        now += seconds;
        if (!rested && now > rest.bySecond()) {
            now += rest.seconds();
            rested = true;
        }
    }

    /** Waits until work can begin at that second, and begins. */
    void begin(long opens) {
        if (!rested && Math.max(now, opens) >= rest.bySecond()) {
            now = Math.max(rest.bySecond() + rest.seconds(), opens);
            rested = true;
        }
        now = Math.max(now, opens);
    }
}
