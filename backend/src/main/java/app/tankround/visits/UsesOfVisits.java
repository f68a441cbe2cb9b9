package app.tankround.visits;

import app.tankround.schedule.DueVisits;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskUse;
import app.tankround.schedule.TaskUses;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.SockSize;
import app.tankround.visits.VisitView.Dose;
import app.tankround.visits.VisitView.Socks;
import app.tankround.visits.VisitView.SystemWork;
import app.tankround.visits.VisitView.Task;
import app.tankround.visits.VisitView.TaskState;
import app.tankround.visits.VisitView.TopUp;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * Tells what finished visits used of what was planned, once each and again where an entry is corrected. A task that was left
 * out, and water that nobody put a number to, tell nothing, nor does a sump that is said to stand at its mark; socks and doses that were ticked as done were used as planned.
 */
@Component
class UsesOfVisits {

    private static final int AT_ONCE = 200;
    private static final double PERCENT = 100;

    private final VisitRows rows;
    private final VisitService visits;
    private final WaterSystems systems;
    private final DueVisits dueVisits;
    private final TaskUses uses;

    UsesOfVisits(VisitRows rows, VisitService visits, WaterSystems systems, DueVisits dueVisits, TaskUses uses) {
        this.rows = rows;
        this.visits = visits;
        this.systems = systems;
        this.dueVisits = dueVisits;
        this.uses = uses;
    }

    /**
     * Tells of the oldest visits that nothing was told of yet.
     *
     * @return whether there may be more
     */
    @Transactional
    boolean tell() {
        List<VisitRow> untold = rows.lockUntold(AT_ONCE);
        if (untold.isEmpty()) {
            return false;
        }
        for (VisitView visit : visits.views(untold)) {
            uses.record(visit.id().value(), visit.serviceDate(), of(visit));
        }
        rows.told(untold);
        return untold.size() == AT_ONCE;
    }

    /** What a visit says it used of what was planned. */
    List<TaskUse> of(VisitView visit) {
        List<TaskUse> all = new ArrayList<>();
        for (SystemWork work : visit.systems()) {
            systems.find(work.systemId()).ifPresent(system -> {
                List<Task> tasks = work.tasks().stream()
                        .filter(task -> task.state() != TaskState.SKIPPED)
                        .toList();
                change(system, work, tasks).ifPresent(all::add);
                topUp(system, work, tasks, visit.serviceDate()).ifPresent(all::add);
                all.addAll(socks(work, tasks));
                all.addAll(doses(work, tasks));
            });
        }
        return all;
    }

    private static Optional<TaskUse> change(WaterSystemView system, SystemWork work, List<Task> tasks) {
        double planned = largest(system, tasks, false) + largest(system, tasks, true);
        return work.waterChange()
                .filter(change -> planned > 0)
                .map(change -> new TaskUse(
                        system.id(),
                        TaskKind.WATER_CHANGE,
                        "",
                        planned,
                        change.putIn().litres()));
    }

    /** Of what is agreed, or of what a plan asks for beside it. */
    private static double largest(WaterSystemView system, List<Task> tasks, boolean besides) {
        return tasks.stream()
                .map(Task::agreed)
                .filter(task ->
                        task.kind() == TaskKind.WATER_CHANGE && task.item().isPresent() == besides)
                .mapToDouble(task -> amount(task)
                        * (task.unit().filter("%"::equals).isPresent()
                                ? system.netVolume().litres() / PERCENT
                                : 1))
                .max()
                .orElse(0);
    }

    private Optional<TaskUse> topUp(WaterSystemView system, SystemWork work, List<Task> tasks, LocalDate day) {
        return tasks.stream()
                .map(Task::agreed)
                .filter(task -> task.kind() == TaskKind.TOP_UP)
                .mapToDouble(task -> task.amount().isPresent() ? amount(task) : evaporated(system, day))
                .max()
                .stream()
                .filter(planned -> planned > 0)
                .mapToObj(planned -> work.topUp()
                        .flatMap(TopUp::filledUp)
                        .map(filled -> new TaskUse(system.id(), TaskKind.TOP_UP, "", planned, filled.litres())))
                .flatMap(Optional::stream)
                .findFirst();
    }

    private double evaporated(WaterSystemView system, LocalDate day) {
        return dueVisits
                .lastDoneBefore(system.id(), day)
                .map(last -> system.evaporationPerDay().litres() * ChronoUnit.DAYS.between(last, day))
                .orElse(0.0);
    }

    private static List<TaskUse> socks(SystemWork work, List<Task> tasks) {
        Map<String, Double> planned = new HashMap<>();
        Map<String, Double> ticked = new HashMap<>();
        tasks.stream()
                .filter(task -> task.agreed().kind() == TaskKind.SOCK_SWAP)
                .forEach(task -> {
                    String size = TaskUse.item(task.agreed());
                    double count =
                            task.agreed().amount().map(BigDecimal::doubleValue).orElse(1.0);
                    planned.merge(size, count, Math::max);
                    if (task.state() == TaskState.DONE) {
                        ticked.merge(size, count, Math::max);
                    }
                });
        Set<SockSize> agreed = tasks.stream()
                .filter(task -> task.agreed().kind() == TaskKind.SOCK_SWAP)
                .flatMap(task -> task.agreed().sockSize().stream())
                .collect(Collectors.toSet());
        Map<String, Double> used = new HashMap<>();
        for (Socks socks : work.socks()) {
            used.merge(socks.size().meantAmong(agreed).code(), (double) socks.count(), Double::sum);
        }
        return uses(work, TaskKind.SOCK_SWAP, planned, used, ticked);
    }

    private static List<TaskUse> doses(SystemWork work, List<Task> tasks) {
        Map<String, Double> planned = new HashMap<>();
        Map<String, Double> ticked = new HashMap<>();
        tasks.stream().filter(task -> task.agreed().kind() == TaskKind.DOSE).forEach(task -> {
            String product = TaskUse.item(task.agreed());
            planned.merge(product, amount(task.agreed()), Double::sum);
            if (task.state() == TaskState.DONE) {
                ticked.merge(product, amount(task.agreed()), Double::sum);
            }
        });
        Map<String, Double> used = new HashMap<>();
        for (Dose dose : work.doses()) {
            used.merge(TaskUse.dose(dose.product(), dose.unit()), dose.amount().doubleValue(), Double::sum);
        }
        return uses(work, TaskKind.DOSE, planned, used, ticked);
    }

    /** Where something was written down beside a tick, that says more. */
    private static List<TaskUse> uses(
            SystemWork work,
            TaskKind kind,
            Map<String, Double> planned,
            Map<String, Double> used,
            Map<String, Double> ticked) {
        return planned.entrySet().stream()
                .filter(each -> each.getValue() > 0)
                .flatMap(each -> Optional.ofNullable(used.getOrDefault(each.getKey(), ticked.get(each.getKey())))
                        .map(amount -> new TaskUse(work.systemId(), kind, each.getKey(), each.getValue(), amount))
                        .stream())
                .toList();
    }

    private static double amount(TaskView task) {
        return task.amount().map(BigDecimal::doubleValue).orElse(0.0);
    }
}
