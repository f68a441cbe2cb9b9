package app.tankround.plans;

import app.tankround.tanks.SystemKind;
import app.tankround.units.Quantity;
import java.util.Optional;

/**
 * Between which values the animals of a kind of system live at all, in the unit of plans: far wider than any target. Common
 * practice, no source.
 */
record LifeRange(double low, double high) {

    /** Empty where nothing lives or nothing is known. */
    static Optional<LifeRange> of(SystemKind kind, Quantity quantity) {
        if (kind == SystemKind.SUPPLY) {
            return Optional.empty();
        }
        boolean reef = kind == SystemKind.REEF;
        boolean salt = kind.isSalt();
        return switch (quantity) {
            case TEMPERATURE -> Optional.of(temperature(kind));
            case SALINITY -> Optional.of(salinity(kind));
            case PH -> Optional.of(salt ? new LifeRange(7, 9) : new LifeRange(4, 9.5));
            case ALKALINITY -> Optional.of(reef ? new LifeRange(4, 20) : new LifeRange(salt ? 1 : 0, 25));
            case CALCIUM -> Optional.of(reef ? new LifeRange(300, 600) : new LifeRange(salt ? 20 : 0, 800));
            case MAGNESIUM -> Optional.of(reef ? new LifeRange(900, 1800) : new LifeRange(salt ? 50 : 0, 2500));
            default -> Optional.empty();
        };
    }

    private static LifeRange temperature(SystemKind kind) {
        return switch (kind) {
            case REEF -> new LifeRange(18, 32);
            case COLDWATER, LIVE_SEAFOOD -> new LifeRange(1, 30);
            default -> new LifeRange(10, 36);
        };
    }

    private static LifeRange salinity(SystemKind kind) {
        return switch (kind) {
            case REEF -> new LifeRange(28, 42);
            case BRACKISH -> new LifeRange(0.5, 40);
            default -> kind.isSalt() ? new LifeRange(5, 45) : new LifeRange(0, 10);
        };
    }

    boolean contains(double value) {
        return value >= low && value <= high;
    }
}
