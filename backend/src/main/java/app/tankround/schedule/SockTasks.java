package app.tankround.schedule;

import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** Counting the filter socks that tasks ask for. */
public final class SockTasks {

    /** Those that take clean socks out of the van. */
    public static final Set<TaskKind> KINDS =
            Collections.unmodifiableSet(EnumSet.of(TaskKind.SOCK_SWAP, TaskKind.SOCKS_LEFT));

    private SockTasks() {}

    /**
     * The tasks that take clean socks out of the van, to swap them there or to leave them for the client to swap; in the order
     * of sizes, so that what is stated more closely comes first.
     */
    public static List<TaskView> of(List<TaskView> tasks) {
        return tasks.stream()
                .filter(task -> KINDS.contains(task.kind()))
                .sorted(Comparator.comparing(task -> task.sockSize().orElseThrow()))
                .toList();
    }

    /**
     * How many socks of which size the tasks at one system ask for. What several visits ask for that are made together
     * is done once, by its largest count.
     */
    public static Map<SockSize, Integer> bySize(List<TaskView> tasks) {
        Map<SockSize, Integer> bySize = new TreeMap<>();
        for (TaskKind kind : KINDS) {
            ofKind(kind, tasks).forEach((size, count) -> bySize.merge(size, count, Integer::sum));
        }
        return bySize;
    }

    /** As {@link #bySize}, of one kind of task alone. */
    public static Map<SockSize, Integer> ofKind(TaskKind kind, Collection<TaskView> tasks) {
        Map<SockSize, Integer> bySize = new TreeMap<>();
        tasks.stream()
                .filter(task -> task.kind() == kind)
                .forEach(task -> task.sockSize()
                        .ifPresent(size -> bySize.merge(
                                size, task.amount().orElse(BigDecimal.ONE).intValue(), Math::max)));
        return bySize;
    }
}
