package app.tankround.rounds.solver;

import java.util.List;

/**
 * How the work should be shared among weeks: work beyond a week's share costs.
 *
 * @param shares seconds of work on site in each week, 0 or more; week 0 begins with day 0, each has 7 days
 * @param perSecond cost of each second beyond its share, 0 to 1 000 000
 */
public record Evenness(List<Long> shares, long perSecond) {

    private static final int DAYS_PER_WEEK = 7;
    private static final long MAX_PER_SECOND = 1_000_000;

    /** No week costs anything. */
    public static final Evenness NONE = new Evenness(List.of(), 0);

    /** Refuses, with {@link IllegalArgumentException}, values outside the ranges above. */
    public Evenness {
        shares = List.copyOf(shares);
        if (perSecond < 0 || perSecond > MAX_PER_SECOND || shares.stream().anyMatch(share -> share < 0)) {
            throw new IllegalArgumentException(
                    "Shares must not be negative and cost 0 to 1000000 a second, not " + shares + ", " + perSecond);
        }
    }

    /** The week of a day, or -1 where its work costs nothing. */
    int weekOf(int day) {
        int week = day / DAYS_PER_WEEK;
        return week < shares.size() && perSecond > 0 ? week : -1;
    }

    /** What so much work in a week costs. */
    long cost(int week, long seconds) {
        return perSecond * Math.max(0, seconds - shares.get(week));
    }
}
