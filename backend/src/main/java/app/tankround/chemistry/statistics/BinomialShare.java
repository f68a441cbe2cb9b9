package app.tankround.chemistry.statistics;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;

/**
 * A share of trials with how far it can be off at 95 %: the score interval of Wilson, "Probable inference, the law of
 * succession, and statistical inference", Journal of the American Statistical Association 22 (1927) 209.
 *
 * @param share successes over trials, 0 to 1
 * @param low lower end of the interval, 0 to 1
 * @param high upper end of the interval, 0 to 1
 */
public record BinomialShare(double share, double low, double high) {

    /** The 97.5 % point of the standard normal distribution. */
    private static final double Z = 1.959963984540054;

    private static final int MOST = 1_000_000_000;

    /**
     * Counts successes against trials.
     *
     * @param successes 0 to {@code trials}
     * @param trials 1 to 1,000,000,000
     * @throws app.tankround.units.OutOfRangeException for numbers outside those ranges
     */
    public static BinomialShare of(int successes, int trials) {
        Ranges.require(InputKind.COUNT, trials, 1, MOST);
        Ranges.require(InputKind.COUNT, successes, 0, trials);
        double share = successes / (double) trials;
        double weight = Z * Z / trials;
        double middle = (share + 0.5 * weight) / (1 + weight);
        double half = Z * Math.sqrt(share * (1 - share) / trials + 0.25 * weight / trials) / (1 + weight);
        return new BinomialShare(share, Math.max(0, middle - half), Math.min(1, middle + half));
    }
}
