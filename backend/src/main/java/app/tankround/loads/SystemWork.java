package app.tankround.loads;

import app.tankround.clients.SiteView;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.stock.StockAmount;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/**
 * What is done at one system on a round, with everything that decides what has to be brought for it.
 *
 * @param position of the stop
 * @param salinity what its salt water is mixed to; empty for fresh water
 * @param suits what water for a change has to be like beside that
 * @param hasGlass whether any of its tanks is, or may be, glass
 * @param daysSinceVisit days of evaporation to make up for, not negative
 * @param mixedOnSite whether its salt water is mixed at the site in drums that go along
 * @param refill what was decided about filling RO/DI water there for later stops
 * @param there what the client keeps at the site, which is used before anything is brought
 * @param tasks each thing once
 */
record SystemWork(
        int position,
        SiteView site,
        WaterSystemView system,
        Optional<SalinityGoal> salinity,
        SuitableWater suits,
        boolean hasGlass,
        long daysSinceVisit,
        boolean mixedOnSite,
        RefillHere refill,
        List<StockAmount> there,
        List<TaskView> tasks) {

    SystemWork {
        tasks = List.copyOf(tasks);
        there = List.copyOf(there);
    }

    SystemWork and(TaskView more) {
        List<TaskView> all = new ArrayList<>(tasks);
        all.add(more);
        return new SystemWork(
                position,
                site,
                system,
                salinity,
                suits,
                hasGlass,
                daysSinceVisit,
                mixedOnSite,
                refill,
                there,
                dosesTogether(all));
    }

    boolean sick() {
        return system.infectionClass().isSick();
    }

    private record Same(TaskKind kind, Optional<String> item, Optional<SockSize> socks, Optional<String> unit) {

        static Same of(TaskView task) {
            return new Same(task.kind(), task.item(), task.sockSize(), task.unit());
        }
    }

    /** As {@link #once}, where a dose of one visit that is agreed and in a plan as well is brought for both. */
    static List<TaskView> ofVisits(List<PlannedVisitView> visits) {
        return once(visits.stream()
                .flatMap(visit -> dosesTogether(visit.tasks()).stream())
                .toList());
    }

    private static List<TaskView> dosesTogether(List<TaskView> tasks) {
        Map<Same, TaskView> doses = new LinkedHashMap<>();
        List<TaskView> others = new ArrayList<>();
        for (TaskView task : tasks) {
            if (task.kind() == TaskKind.DOSE && task.amount().isPresent()) {
                doses.merge(
                        Same.of(task),
                        task,
                        (one, more) -> TaskView.dose(
                                one.item().orElse(""),
                                amount(one).add(amount(more)),
                                one.unit().orElse("")));
            } else {
                others.add(task);
            }
        }
        others.addAll(doses.values());
        return others;
    }

    /**
     * Tasks of several due visits to one system as one piece of work. A visit that was missed is not made up for twice:
     * the same thing agreed more than once is done once, by its largest amount.
     */
    static List<TaskView> once(List<TaskView> all) {
        Map<Same, TaskView> kept = new LinkedHashMap<>();
        for (TaskView task : all) {
            kept.merge(Same.of(task), task, (one, other) -> amount(one).compareTo(amount(other)) >= 0 ? one : other);
        }
        return new ArrayList<>(kept.values());
    }

    private static BigDecimal amount(TaskView task) {
        return Objects.requireNonNullElse(task.amount().orElse(null), BigDecimal.ZERO);
    }
}
