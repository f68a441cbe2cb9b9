package app.tankround.loads;

import java.math.BigDecimal;
import java.math.BigInteger;

/**
 * How sure it is that the amount of a line is enough, by what earlier visits used.
 *
 * @param planned by all stops together, in litres of water, else in the unit of the line
 * @param loaded as much or more
 * @param enough how likely that is enough, 0 to 1
 */
public record Assurance(BigDecimal planned, BigDecimal loaded, double enough) {

    private static final int[] FEW = {10, 20, 50, 100};
    private static final int MOST_OF_FEW = 100;
    private static final int[] MANY = {200, 500, 1000};
    private static final double ROUNDING = 1e-9;

    /** Of so many rounds it is enough on so many; never more than it is. */
    public record Odds(int enough, int rounds) {

        private double share() {
            return enough / (double) rounds;
        }

        /** In the smallest numbers. */
        static Odds of(int enough, int rounds) {
            int common =
                    BigInteger.valueOf(enough).gcd(BigInteger.valueOf(rounds)).intValue();
            return new Odds(enough / common, rounds / common);
        }
    }

    /** In the fewest rounds that say it best: of 100 at most, and of more only where it is not enough on less than one of those. */
    public Odds odds() {
        Odds best = Odds.of((int) Math.floor(FEW[0] * enough + ROUNDING), FEW[0]);
        for (int rounds : FEW) {
            Odds odds = Odds.of((int) Math.floor(rounds * enough + ROUNDING), rounds);
            best = odds.share() > best.share() + ROUNDING ? odds : best;
        }
        if (best.share() < 1 - ROUNDING && MOST_OF_FEW * (1 - enough) >= 1 - ROUNDING) {
            return best;
        }
        for (int rounds : MANY) {
            if (rounds * (1 - enough) >= 1 - ROUNDING) {
                return Odds.of((int) Math.floor(rounds * enough + ROUNDING), rounds);
            }
        }
        int most = MANY[MANY.length - 1];
        return Odds.of(most - 1, most);
    }

    /** What is loaded beyond the plan, as a part of all. */
    double beyond() {
        return 1 - planned.doubleValue() / loaded.doubleValue();
    }
}
