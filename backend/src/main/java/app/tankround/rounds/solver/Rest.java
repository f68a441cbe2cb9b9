package app.tankround.rounds.solver;

/**
 * The break of a crew: wherever it is by then, at work, on the road or waiting, it stops for that long, unless it is back.
 * Solvers reckon in seconds without the break, in which it takes no time; this turns one into the other.
 *
 * @param bySecond when it begins, in seconds of day
 * @param seconds how long it lasts, 0 to 14 400 s
 */
public record Rest(int bySecond, int seconds) {

    /** A day without a break. */
    public static final Rest NONE = new Rest(Integer.MAX_VALUE, 0);

    private static final int MAX_SECONDS = 14_400;

    /** Refuses, with {@link IllegalArgumentException}, values outside the ranges above. */
    public Rest {
        if (bySecond < 0 || seconds < 0 || seconds > MAX_SECONDS) {
            throw new IllegalArgumentException(
                    "A break must begin at 0 or later and last 0 to 14400 seconds, not " + bySecond + ", " + seconds);
        }
    }

    /**
     * The first second without the break at which work begins no earlier than at one of the clock, and the last at which
     * something ends no later.
     */
    public int open(int clock) {
        return clock <= bySecond ? clock : Math.max(bySecond, clock - seconds);
    }

    /** The last second without the break at which work begins no later than at one of the clock. */
    int close(int clock) {
        if (clock < bySecond) {
            return clock;
        }
        return clock - seconds < bySecond ? bySecond - 1 : clock - seconds;
    }

    /** What the clock shows when work begins: at the moment of the break it begins after it. */
    int begins(int without) {
        return without < bySecond ? without : without + seconds;
    }

    /** What the clock shows when something ends: at the moment of the break it is done. */
    public int ends(int without) {
        return without <= bySecond ? without : without + seconds;
    }
}
