package app.tankround.loads;

import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.UsedFirst;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.util.function.Predicate;

/**
 * What clients keep at the sites of a round, while it is being used up: several systems of a site share it, the first stop first.
 * Systems that share nothing take nothing of it.
 */
final class ThereAlready {

    private final UsedFirst used = new UsedFirst();

    /** Salt of any name. */
    BigDecimal salt(SystemWork work, BigDecimal kilograms) {
        return take(work, item -> item.kind() == StockKind.SALT, kilograms, "kg");
    }

    BigDecimal socks(SystemWork work, SockSize asked, BigDecimal count) {
        return take(work, item -> item.serves(asked), count, "count");
    }

    /** A medium or dose of that name. */
    BigDecimal product(SystemWork work, StockKind kind, String name, BigDecimal amount, String unit) {
        return take(work, item -> item.kind() == kind && item.name().equalsIgnoreCase(name.strip()), amount, unit);
    }

    private BigDecimal take(SystemWork work, Predicate<StockItemView> which, BigDecimal amount, String unit) {
        return work.sick() ? BigDecimal.ZERO : used.take(work.site().id(), work.there(), which, amount, unit);
    }
}
