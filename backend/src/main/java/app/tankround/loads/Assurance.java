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

    private static final int FEWEST = 10;
    private static final int[] ROUNDS = {20, 50, 100, 200, 500, 1000};
    private static final double ROUNDING = 1e-9;

    /** Of so many rounds it is enough on so many; never more than it is. */
    public record Odds(int enough, int rounds) {

        /** In the smallest numbers. */
        static Odds of(int enough, int rounds) {
            int common =
                    BigInteger.valueOf(enough).gcd(BigInteger.valueOf(rounds)).intValue();
            return new Odds(enough / common, rounds / common);
        }
    }

    /** The most rounds of which it is not enough on one only; below nine of ten, how many of ten. */
    public Odds odds() {
        int most = FEWEST;
        for (int rounds : ROUNDS) {
            if (rounds * (1 - enough) <= 1 + ROUNDING) {
                most = rounds;
            }
        }
        return most == FEWEST ? Odds.of((int) Math.floor(FEWEST * enough + ROUNDING), FEWEST) : Odds.of(most - 1, most);
    }

    /** What is loaded beyond the plan, as a part of all. */
    double beyond() {
        return 1 - planned.doubleValue() / loaded.doubleValue();
    }
}
