package app.tankround.loads;

import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.stock.StockItemView;
import java.math.BigDecimal;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** Counting filter socks. */
final class Socks {

    private Socks() {}

    private static final Set<TaskKind> OF_SOCKS = EnumSet.of(TaskKind.SOCK_SWAP, TaskKind.SOCKS_LEFT);

    /** Whether a task takes clean socks out of the van: to swap them there, or to leave them for the client to swap. */
    static boolean areNeededFor(TaskView task) {
        return OF_SOCKS.contains(task.kind());
    }

    /** How many socks of which diameter tasks ask for. */
    static Map<Integer, Integer> bySize(List<TaskView> tasks) {
        Map<Integer, Integer> bySize = new TreeMap<>();
        tasks.stream()
                .filter(Socks::areNeededFor)
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
