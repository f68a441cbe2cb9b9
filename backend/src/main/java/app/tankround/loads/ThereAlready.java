package app.tankround.loads;

import app.tankround.clients.SiteId;
import app.tankround.stock.StockAmount;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockKind;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Predicate;

/**
 * What clients keep at the sites of a round, while it is being used up: several systems of a site share it, the first stop first.
 * Systems that share nothing take nothing of it.
 */
final class ThereAlready {

    private static final int DECIMALS = 6;

    /** By site and item, in the unit of the item. */
    private final Map<Shelf, BigDecimal> taken = new HashMap<>();

    private record Shelf(SiteId site, StockItemId item) {}

    /** Salt of any name. */
    BigDecimal salt(SystemWork work, BigDecimal kilograms) {
        return take(work, each -> each.item().kind() == StockKind.SALT, kilograms, "kg");
    }

    BigDecimal socks(SystemWork work, int sizeMm, BigDecimal count) {
        return take(
                work,
                each -> each.item().kind() == StockKind.SOCK
                        && each.item().sizeMm().filter(size -> size == sizeMm).isPresent(),
                count,
                "count");
    }

    /** A medium or dose of that name. */
    BigDecimal product(SystemWork work, StockKind kind, String name, BigDecimal amount, String unit) {
        return take(
                work,
                each -> each.item().kind() == kind && each.item().name().equalsIgnoreCase(name.strip()),
                amount,
                unit);
    }

    /** @return so much of the amount as is there, which is taken */
    private BigDecimal take(SystemWork work, Predicate<StockAmount> which, BigDecimal amount, String unit) {
        if (work.sick()) {
            return BigDecimal.ZERO;
        }
        BigDecimal found = BigDecimal.ZERO;
        for (StockAmount each : work.there()) {
            BigDecimal all = which.test(each) ? each.in(unit).orElse(BigDecimal.ZERO) : BigDecimal.ZERO;
            if (all.signum() > 0) {
                Shelf shelf = new Shelf(work.site().id(), each.item().id());
                BigDecimal gone = taken.getOrDefault(shelf, BigDecimal.ZERO);
                BigDecimal left = new StockAmount(each.item(), each.amount().subtract(gone))
                        .in(unit)
                        .orElseThrow();
                BigDecimal used = left.min(amount.subtract(found)).max(BigDecimal.ZERO);
                taken.put(shelf, gone.add(used.multiply(each.amount()).divide(all, DECIMALS, RoundingMode.HALF_EVEN)));
                found = found.add(used);
            }
        }
        return found;
    }
}
