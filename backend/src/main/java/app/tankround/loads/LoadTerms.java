package app.tankround.loads;

import app.tankround.chemistry.statistics.Newsvendor;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Arrays;
import java.util.List;
import java.util.Map;

/**
 * How sure loads are to be enough. Of each kind of thing the owner says what one too few and one too many costs; only the
 * ratio matters. The usual ones are an own choice, no source.
 *
 * @param byUse whether what earlier visits used counts; else what is planned is loaded
 * @param costs of each kind but {@link Kind#SAFETY}
 * @param safetyPercent of rounds on which what animals or people may be harmed without is enough at least, 50 to 99.99
 * @param version 0 where nobody has chosen yet
 */
public record LoadTerms(boolean byUse, Map<Kind, Cost> costs, BigDecimal safetyPercent, int version) {

    public static final BigDecimal LEAST_COST = new BigDecimal("0.01");
    public static final BigDecimal MOST_COST = new BigDecimal("10000");
    public static final BigDecimal LEAST_PERCENT = new BigDecimal("50");
    public static final BigDecimal MOST_PERCENT = new BigDecimal("99.99");

    private static final double PERCENT = 100;

    /** What is decided alike. */
    public enum Kind {
        /** In litres; a second drive for a tank that stands half empty. */
        WATER,
        /** In kilograms. */
        SALT,
        /** Pieces. */
        SOCKS,
        /** In mL or g. */
        DOSES,
        /** Doses without which animals or people may be harmed: conditioner and treatments. */
        SAFETY
    }

    /**
     * @param few what one too few costs
     * @param many what one too many costs that is brought back
     */
    public record Cost(BigDecimal few, BigDecimal many) {

        double ratio() {
            return Newsvendor.criticalRatio(few.doubleValue(), many.doubleValue());
        }
    }

    public LoadTerms {
        costs = Map.copyOf(costs);
    }

    static LoadTerms usual() {
        return new LoadTerms(
                true,
                Map.of(
                        Kind.WATER, cost("4.90", "0.10"),
                        Kind.SALT, cost("49.00", "1.00"),
                        Kind.SOCKS, cost("9.50", "0.50"),
                        Kind.DOSES, cost("0.95", "0.05")),
                new BigDecimal("99"),
                0);
    }

    private static Cost cost(String few, String many) {
        return new Cost(new BigDecimal(few), new BigDecimal(many));
    }

    Cost cost(Kind kind) {
        Cost cost = costs.get(kind == Kind.SAFETY ? Kind.DOSES : kind);
        if (cost == null) {
            throw new IllegalStateException("no costs of " + kind);
        }
        return cost;
    }

    /** On how many percent of rounds what is of a kind is enough. */
    public record Percent(Kind kind, BigDecimal percent) {}

    public List<Percent> percents() {
        return Arrays.stream(Kind.values())
                .map(kind -> new Percent(
                        kind,
                        new BigDecimal(BigDecimal.valueOf(level(kind) * PERCENT)
                                .setScale(2, RoundingMode.HALF_UP)
                                .stripTrailingZeros()
                                .toPlainString())))
                .toList();
    }

    /** How likely a load should be enough, above 0 and below 1. */
    double level(Kind kind) {
        double ratio = cost(kind).ratio();
        return kind == Kind.SAFETY ? Math.max(ratio, safetyPercent.doubleValue() / PERCENT) : ratio;
    }
}
