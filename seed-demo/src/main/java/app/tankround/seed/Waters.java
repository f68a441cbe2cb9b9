package app.tankround.seed;

import app.tankround.tanks.SystemKind;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * What the water of a system is like on a day: a level of its own, the season, a slow swing and noise. The same day
 * always gives the same water, so that a filling that was stopped goes on as it had begun.
 */
final class Waters {

    private static final long SEED = 20_417L;
    private static final double DAYS_OF_YEAR = 365.25;
    /** The warmest time of the year, counted from the first of January. */
    private static final int WARMEST_DAY = 205;

    private Waters() {}

    /** @param season half of the difference between summer and winter */
    private record Level(double usual, double between, double swing, double noise, double season) {}

    private static final Level SUMP_TEMPERATURE = new Level(25.3, 0.25, 0.15, 0.12, 0.4);

    private static Level level(SystemKind kind, Quantity quantity) {
        return switch (quantity) {
            case TEMPERATURE ->
                switch (kind) {
                    case COLDWATER -> new Level(16, 0.3, 0.3, 0.3, 3.5);
                    case LIVE_SEAFOOD -> new Level(6, 0.3, 0.3, 0.2, 0.5);
                    case PLANTED -> new Level(24, 0.2, 0.15, 0.12, 0.4);
                    default -> SUMP_TEMPERATURE;
                };
            case SALINITY ->
                switch (kind) {
                    case REEF -> new Level(35, 0.1, 0.1, 0.07, 0);
                    case BRACKISH -> new Level(10, 0.3, 0.3, 0.2, 0);
                    default -> new Level(32.5, 0.2, 0.15, 0.12, 0);
                };
            case PH ->
                switch (kind) {
                    case FRESHWATER -> new Level(7.05, 0.08, 0.05, 0.04, 0);
                    case PLANTED -> new Level(6.8, 0.08, 0.06, 0.05, 0);
                    case COLDWATER -> new Level(7.4, 0.08, 0.06, 0.05, 0);
                    case TANGANYIKA -> new Level(8.65, 0.05, 0.04, 0.03, 0);
                    case MALAWI -> new Level(8.1, 0.05, 0.05, 0.04, 0);
                    case BRACKISH -> new Level(7.95, 0.05, 0.05, 0.04, 0);
                    default -> new Level(8.15, 0.03, 0.03, 0.03, 0);
                };
            case ALKALINITY ->
                switch (kind) {
                    case REEF -> new Level(8.8, 0.4, 0.3, 0.2, 0);
                    case TANGANYIKA -> new Level(14, 0.5, 0.4, 0.3, 0);
                    default -> new Level(9, 0.4, 0.3, 0.3, 0);
                };
            case CALCIUM -> new Level(417, 5, 5, 4, 0);
            case MAGNESIUM -> new Level(1325, 10, 10, 8, 0);
            case PHOSPHATE -> new Level(0.06, 0.006, 0.006, 0.004, 0);
            case NITRATE ->
                switch (kind) {
                    case REEF -> new Level(7, 1.2, 1, 0.7, 0);
                    case PLANTED -> new Level(14, 1.5, 1.5, 1, 0);
                    case LIVE_SEAFOOD -> new Level(45, 6, 6, 4, 0);
                    case TANGANYIKA, MALAWI -> new Level(14, 1.5, 1.5, 1, 0);
                    default -> new Level(22, 3, 2.5, 1.5, 0);
                };
            case OXYGEN -> new Level(9.4, 0.1, 0.1, 0.1, -0.3);
            default -> new Level(0, 0, 0, 0, 0);
        };
    }

    /** In the unit that {@link #decimals} goes with: °C, practical salinity, pH, dKH or mg/L. */
    static double of(PlannedSystem system, Quantity quantity, LocalDate day) {
        Level level = level(system.kind(), quantity);
        SplittableRandom own = random(system.code() + quantity);
        double usual = level.usual() + level.between() * own.nextDouble(-1, 1);
        double phase = own.nextDouble(2 * Math.PI);
        double weeks = own.nextDouble(9, 20);
        double days = (double) day.toEpochDay();
        double swing = level.swing() * Math.sin(phase + 2 * Math.PI * days / (7 * weeks));
        double season = level.season() * Math.cos(2 * Math.PI * (day.getDayOfYear() - WARMEST_DAY) / DAYS_OF_YEAR);
        return usual + swing + season + level.noise() * gaussian(random(system.code() + quantity + day));
    }

    /** A random number of its own for everything that has a name. */
    static SplittableRandom random(String name) {
        return new SplittableRandom(SEED * 1_000_003L + name.hashCode());
    }

    /** About normally distributed, never beyond 2.5. */
    static double gaussian(SplittableRandom random) {
        double sum = 0;
        for (int i = 0; i < 12; i++) {
            sum += random.nextDouble();
        }
        return Math.clamp(sum - 6, -2.5, 2.5);
    }

    private static final Map<Quantity, Integer> DECIMALS = Map.of(
            Quantity.TEMPERATURE, 1,
            Quantity.SALINITY, 1,
            Quantity.PH, 2,
            Quantity.ALKALINITY, 1,
            Quantity.CALCIUM, 0,
            Quantity.MAGNESIUM, 0,
            Quantity.PHOSPHATE, 2,
            Quantity.NITRATE, 0,
            Quantity.OXYGEN, 1,
            Quantity.DISSOLVED_SOLIDS, 0);

    /** As it would be written down. */
    static BigDecimal written(double value, Quantity quantity) {
        return BigDecimal.valueOf(value).setScale(DECIMALS.getOrDefault(quantity, 2), RoundingMode.HALF_EVEN);
    }
}
