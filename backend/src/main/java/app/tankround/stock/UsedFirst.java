package app.tankround.stock;

import app.tankround.clients.SiteId;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/** What clients keep at their sites, while it is being used up: who asks first gets it. */
public final class UsedFirst {

    private static final int DECIMALS = 6;

    /** By site and item, in the unit of the item. */
    private final Map<Shelf, BigDecimal> taken = new HashMap<>();

    private record Shelf(SiteId site, StockItemId item) {}

    /**
     * Takes so much of what is left, as far as there is any.
     *
     * @param there what the client keeps at the site, before any of it was taken
     * @param which serves
     * @param amount 0 or more
     * @param unit of the amount; what is counted in a unit of another sort does not serve
     * @return how much was taken, in that unit
     */
    public BigDecimal take(
            SiteId site, List<StockAmount> there, Predicate<StockItemView> which, BigDecimal amount, String unit) {
        BigDecimal found = BigDecimal.ZERO;
        for (StockAmount each : there) {
            BigDecimal all = which.test(each.item()) ? each.in(unit).orElse(BigDecimal.ZERO) : BigDecimal.ZERO;
            if (all.signum() > 0) {
                Shelf shelf = new Shelf(site, each.item().id());
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
