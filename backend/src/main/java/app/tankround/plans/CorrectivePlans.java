package app.tankround.plans;

import app.tankround.chemistry.PlanOrder;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.web.NotFound;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The corrective plans that there are, and what they rest on. {@link PlanMaking} makes them, {@link PlanFollowing} follows. */
@Service
@Transactional(readOnly = true)
public class CorrectivePlans {

    /** Whether the new water of a system was measured by the same instrument that misread the system. */
    public enum Matched {
        /** The salinity of the system was not lately read on an instrument that is no longer believed. */
        NO,
        /** The system was; of the new water nobody knows. */
        PERHAPS,
        /** Both were, so that they matched, and the animals live in the real salinity. */
        YES
    }

    private static final Duration SHORT_MEMORY = Duration.ofDays(120);
    private static final int MOST_DOUBTED = 1000;

    private final PlanRows rows;
    private final PlanBasis basis;
    private final PlanTasks tasks;
    private final ReadingService readings;
    private final WaterSystems systems;
    private final Clock clock;

    CorrectivePlans(
            PlanRows rows,
            PlanBasis basis,
            PlanTasks tasks,
            ReadingService readings,
            WaterSystems systems,
            Clock clock) {
        this.rows = rows;
        this.basis = basis;
        this.tasks = tasks;
        this.readings = readings;
        this.systems = systems;
        this.clock = clock;
    }

    /** @throws NotFound if there is none */
    public PlanView require(CorrectivePlanId id) {
        return rows.find(id).orElseThrow(() -> new NotFound("plan", id));
    }

    /** All plans that are followed or still to be decided on, the oldest first. */
    public List<PlanView> open() {
        return rows.open();
    }

    /** The plans of a system, the newest first. */
    public List<PlanView> bySystem(WaterSystemId system) {
        return rows.bySystem(system);
    }

    /** What the newest believed reading of each quantity says, in the units of plans. */
    public Map<Quantity, Double> known(WaterSystemId system) {
        return basis.believed(system);
    }

    /** The most that the newest reading of total ammonia may mean, mg/L; empty if it was never measured. */
    public Optional<Double> ammonia(WaterSystemId system) {
        return basis.ammonia(system);
    }

    /** Whether something newer than the plan rests on was read and is not believed, so that it drew nothing anew. */
    public boolean newerNotBelieved(PlanView plan) {
        return Optional.ofNullable(basis.newest(plan.systemId()).get(plan.quantity()))
                .filter(newest -> !newest.id().equals(plan.readingId()) && !PlanBasis.believed(newest))
                .isPresent();
    }

    /** The newest salinity, where it was read while the sump was low: plans wait for a measurement after topping up. */
    public Optional<LowSumpSalinity> lowSump(WaterSystemId system) {
        return basis.lowSump(system);
    }

    /** The salinity that the new water of visits is mixed to, for those of which a plan that is followed says so. */
    public Map<PlannedVisitId, Double> newWaterSalinities(Collection<PlannedVisitId> visits) {
        return rows.newWaterSalinities(visits);
    }

    /** The tasks of a visit that are steps of plans, by their position among its tasks. */
    public Map<Integer, StepAtVisit> steps(WaterSystemView system, PlannedVisitView visit) {
        Map<Integer, StepAtVisit> found = new HashMap<>();
        rows.bySystem(system.id()).stream()
                .filter(plan -> plan.state() == PlanState.RUNNING)
                .forEach(plan -> plan.steps().stream()
                        .filter(step -> step.visit().equals(visit.id()))
                        .forEach(step -> tasks.of(plan, step, visit, system).stream()
                                .filter(task -> task.kind() != TaskKind.TEST)
                                // What was proposed stands behind what was agreed.
                                .map(visit.tasks()::lastIndexOf)
                                .filter(position -> position >= 0)
                                .forEach(position -> found.put(
                                        position,
                                        new StepAtVisit(plan.quantity(), first(plan, system), step.agreedRise())))));
        return found;
    }

    /** What a step follows from: the salinity that its quantity moves with, itself, and ammonia that nobody ever measured. */
    private List<Quantity> first(PlanView plan, WaterSystemView system) {
        List<Quantity> first = new ArrayList<>();
        if (system.kind().isSalt() && PlanOrder.before(plan.quantity()).contains(Quantity.SALINITY)) {
            first.add(Quantity.SALINITY);
        }
        if (plan.raisesPh() && basis.ammonia(system.id()).isEmpty()) {
            first.add(Quantity.AMMONIA);
        }
        first.add(plan.quantity());
        return first;
    }

    /**
     * Whether tank and new water matched only because one instrument that is no longer believed measured both. What is
     * measured in a system where water is made tells that it measured new water.
     */
    public Matched matchedByCondemned(WaterSystemId system) {
        Instant now = clock.instant();
        Instant from = now.minus(SHORT_MEMORY);
        List<ReadingView> doubted = readings.series(system, Quantity.SALINITY, from, now.plusSeconds(1)).stream()
                .filter(reading -> reading.assessment().doubtful())
                .toList();
        if (doubted.isEmpty()) {
            return Matched.NO;
        }
        Set<WaterSystemId> supplies = systems.all().stream()
                .filter(each -> each.kind() == SystemKind.SUPPLY)
                .map(WaterSystemView::id)
                .collect(Collectors.toSet());
        boolean both = doubted.stream()
                .flatMap(reading -> reading.instrumentId().stream())
                .distinct()
                .flatMap(instrument -> readings.doubtful(instrument, MOST_DOUBTED).stream())
                .anyMatch(each -> supplies.contains(each.reading().systemId())
                        && each.reading().takenAt().isAfter(from));
        return both ? Matched.YES : Matched.PERHAPS;
    }
}
