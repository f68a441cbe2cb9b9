package app.tankround.stock;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/** Which sorts of socks go, where several serve. */
public final class SockShares {

    private SockShares() {}

    /**
     * So many socks, first of all as many as the first of {@code preferred} says of each sort, then as the next says,
     * less what was shared out by then; what is still missing is of the first sort.
     *
     * @param sorts all that serve, in the order in which they go
     * @param amount 0 or more
     * @param preferred how many of a sort, 0 or less for none
     * @return nothing where there are no sorts
     */
    public static List<StockAmount> of(
            List<StockItemView> sorts, BigDecimal amount, List<Function<StockItemId, BigDecimal>> preferred) {
        Map<StockItemView, BigDecimal> shares = new LinkedHashMap<>();
        BigDecimal open = amount;
        for (Function<StockItemId, BigDecimal> most : preferred) {
            for (StockItemView sort : sorts) {
                BigDecimal more = most.apply(sort.id())
                        .subtract(shares.getOrDefault(sort, BigDecimal.ZERO))
                        .min(open);
                if (more.signum() > 0) {
                    shares.merge(sort, more, BigDecimal::add);
                    open = open.subtract(more);
                }
            }
        }
        if (open.signum() > 0 && !sorts.isEmpty()) {
            shares.merge(sorts.getFirst(), open, BigDecimal::add);
        }
        return shares.entrySet().stream()
                .map(share -> new StockAmount(share.getKey(), share.getValue()))
                .toList();
    }
}
