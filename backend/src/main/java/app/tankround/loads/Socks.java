package app.tankround.loads;

import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.stock.StockItemView;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Counting filter socks. */
final class Socks {

    private Socks() {}

    /** How many socks of which diameter tasks ask for. */
    static Map<Integer, Integer> bySize(List<TaskView> tasks) {
        Map<Integer, Integer> bySize = new TreeMap<>();
        tasks.stream()
                .filter(task -> task.kind() == TaskKind.SOCK_SWAP)
                .forEach(task -> task.sizeMm()
                        .ifPresent(size -> bySize.merge(
                                size, task.amount().orElse(BigDecimal.ONE).intValue(), Integer::sum)));
        return bySize;
    }

    static int onHand(List<StockItemView> shelf) {
        return shelf.stream()
                .map(StockItemView::onHand)
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .intValue();
    }
}
