package app.tankround.plans;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.persistence.RecordLock;
import app.tankround.plans.PlanView.PlanStep;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.ReadingsNoLongerTrusted;
import app.tankround.readings.ReadingsRecorded;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.DueVisitsRemoved;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Follows plans: the steps are tasks of the visits to come, every new reading draws what is left anew, and a reading that
 * is no longer believed stops the plan.
 */
@Service
@Transactional
public class PlanFollowing {

    private static final int LONGEST_REASON = 500;

    /** How much longer a visit takes with a step, at the site; own choice. */
    static final int STEP_MINUTES = 10;

    private final PlanRows rows;
    private final PlanBasis basis;
    private final PlanVisits visits;
    private final PlanTasks tasks;
    private final SafeRates rates;
    private final DailyRise rise;
    private final ReadingService readings;
    private final DecisionRegister decisions;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final BusinessProfile business;
    private final Followups followups;
    private final ChangeLog changes;
    private final RecordLock lock;
    private final Clock clock;

    PlanFollowing(
            PlanRows rows,
            PlanBasis basis,
            PlanVisits visits,
            PlanTasks tasks,
            SafeRates rates,
            DailyRise rise,
            ReadingService readings,
            DecisionRegister decisions,
            DueVisits dueVisits,
            WaterSystems systems,
            BusinessProfile business,
            Followups followups,
            ChangeLog changes,
            RecordLock lock,
            Clock clock) {
        this.rows = rows;
        this.basis = basis;
        this.visits = visits;
        this.tasks = tasks;
        this.rates = rates;
        this.rise = rise;
        this.readings = readings;
        this.decisions = decisions;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.business = business;
        this.followups = followups;
        this.changes = changes;
        this.lock = lock;
        this.clock = clock;
    }

    /**
     * From now on the steps are tasks of the visits to come.
     *
     * @throws FieldRefusal if it is not a proposed plan, its first step would harm by the ammonia that it sets free, or its
     *     reading is no longer believed or was read while the sump was low
     * @throws StaleVersion if the plan changed meanwhile
     */
    public void start(CorrectivePlanId id, int version) {
        PlanView plan = locked(id, version);
        if (plan.state() != PlanState.PROPOSED) {
            throw new FieldRefusal("", "plans.not-proposed");
        }
        if (plan.ammoniaFirst()) {
            throw new FieldRefusal("", "plans.ammonia-first");
        }
        if (!PlanBasis.believed(readings.require(plan.readingId()))) {
            throw new FieldRefusal("", "plans.reading-not-believed");
        }
        if (plan.quantity() == Quantity.SALINITY
                && basis.lowSump(plan.systemId()).isPresent()) {
            throw new FieldRefusal("", "plans.sump-low");
        }
        rows.state(id, PlanState.RUNNING, Optional.empty());
        changes.record("plan", id, "started", Map.of());
        bringToVisits(require(id));
    }

    /**
     * Stops a plan; its steps leave the visits.
     *
     * @param why 1 to 500 characters
     */
    public void stop(CorrectivePlanId id, int version, String why) {
        PlanView plan = locked(id, version);
        String reason = why.strip();
        if (reason.isEmpty() || reason.length() > LONGEST_REASON) {
            throw new FieldRefusal("why", "plans.why-length", reason.length(), 1, LONGEST_REASON);
        }
        if (plan.state() != PlanState.PROPOSED && plan.state() != PlanState.RUNNING) {
            throw new FieldRefusal("why", "plans.not-open");
        }
        stop(plan, reason);
    }

    private void stop(PlanView plan, String reason) {
        dueVisits.withdraw(plan.id().value());
        rows.state(plan.id(), PlanState.STOPPED, Optional.of(reason));
        changes.record("plan", plan.id(), "stopped", Map.of("why", reason));
    }

    private PlanView locked(CorrectivePlanId id, int version) {
        PlanView plan = require(id);
        lock.hold("plans " + plan.systemId());
        PlanView stored = require(id);
        if (stored.version() != version) {
            throw new StaleVersion("/plans/" + id, stored, plan);
        }
        return stored;
    }

    /** Puts the steps from today on into the visits, and registers that they rest on the reading. */
    private void bringToVisits(PlanView plan) {
        LocalDate today = dueVisits.today();
        dueVisits.withdraw(plan.id().value());
        WaterSystemView system = systems.require(plan.systemId());
        List<PlanStep> ahead =
                plan.steps().stream().filter(step -> !step.on().isBefore(today)).toList();
        Map<PlannedVisitId, PlannedVisitView> found = new HashMap<>();
        dueVisits.find(ahead.stream().map(PlanStep::visit).toList()).forEach(visit -> found.put(visit.id(), visit));
        ahead.forEach(step -> Optional.ofNullable(found.get(step.visit()))
                .ifPresent(visit -> dueVisits.propose(
                        visit.id(), plan.id().value(), tasks.of(plan, step, visit, system), STEP_MINUTES)));
        ahead.stream()
                .findFirst()
                .ifPresent(next -> decisions.register(
                        "plan-step",
                        "water-system",
                        plan.systemId().value(),
                        "/plans/" + plan.id(),
                        tasks.decisionCode(plan),
                        tasks.decisionArgs(plan, next, system),
                        List.of(plan.readingId())));
    }

    /** Every new reading of the quantity draws what is left anew. */
    @EventListener
    void on(ReadingsRecorded recorded) {
        List<PlanView> open = rows.open();
        if (open.isEmpty()) {
            return;
        }
        Map<ReadingId, ReadingView> found = readings.find(recorded.readings());
        recorded.readings().stream()
                .flatMap(id -> Optional.ofNullable(found.get(id)).stream())
                .filter(reading -> open.stream()
                        .anyMatch(plan ->
                                plan.systemId().equals(reading.systemId()) && plan.quantity() == reading.quantity()))
                .forEach(reading ->
                        rows.openOn(reading.systemId(), reading.quantity()).ifPresent(plan -> redraw(plan, reading)));
        Set<WaterSystemId> ammonia = found.values().stream()
                .filter(reading -> reading.quantity() == Quantity.AMMONIA || reading.quantity() == Quantity.PH)
                .map(ReadingView::systemId)
                .collect(Collectors.toSet());
        open.stream()
                .filter(plan -> ammonia.contains(plan.systemId()) && plan.raisesPh())
                .forEach(this::holdAgainstAmmonia);
    }

    /** A plan that is followed stops as soon as what was measured meanwhile forbids a step of it. */
    private void holdAgainstAmmonia(PlanView known) {
        lock.hold("plans " + known.systemId());
        PlanView plan = require(known.id());
        if (plan.state() != PlanState.RUNNING) {
            return;
        }
        LocalDate today = dueVisits.today();
        Optional<PlanStep> last = lastStep(plan, today, step -> true);
        try {
            PlanDrawing now = drawing(
                    plan,
                    last.map(PlanStep::after).orElse(plan.from()),
                    last.map(PlanStep::on).orElse(plan.readOn()),
                    today);
            if (now.ammoniaFirst()) {
                stopForAmmonia(plan);
            }
        } catch (OutOfRangeException unreachable) {
            // The next reading of the quantity itself says so.
            return;
        }
    }

    private void stopForAmmonia(PlanView plan) {
        stop(plan, "AMMONIA");
        tell(plan, "plans.followup.ammonia", Urgency.NOW);
    }

    private void redraw(PlanView plan, ReadingView reading) {
        ReadingView before = readings.require(plan.readingId());
        if (reading.takenAt().isBefore(before.takenAt())
                || !PlanBasis.believed(reading)
                || PlanBasis.value(reading).isEmpty()
                || basis.readOverLowSump(reading)) {
            return;
        }
        lock.hold("plans " + plan.systemId());
        double from = PlanBasis.value(reading).get();
        if (isDoneAt(reading, plan)) {
            dueVisits.withdraw(plan.id().value());
            rows.redrawn(plan.id(), reading.id(), from, day(reading.takenAt()), Optional.empty(), dueVisits.today());
            rows.state(plan.id(), PlanState.DONE, Optional.empty());
            changes.record("plan", plan.id(), "done", Map.of("value", String.valueOf(from)));
            return;
        }
        LocalDate readOn = day(reading.takenAt());
        // Of two readings on one day the second is of water that may have had its step.
        boolean stepped = readOn.equals(plan.readOn())
                && reading.replaces().isEmpty()
                && plan.steps().stream().anyMatch(step -> step.on().equals(readOn));
        draw(plan, reading.id(), from, readOn, stepped ? readOn.plusDays(1) : dueVisits.today());
    }

    private static boolean isDoneAt(ReadingView reading, PlanView plan) {
        double from = PlanBasis.value(reading).orElseThrow();
        double left = plan.to() > plan.first() ? plan.to() - from : from - plan.to();
        return left <= PlanBasis.uncertainty(reading);
    }

    /**
     * Somebody has said how the sump of a system stands. What was drawn from a salinity that was read while it was low is
     * taken back: the plan rests on what was known before, and waits for a measurement after topping up. What was taken for
     * low and was not, is drawn from.
     */
    public void sumpAnswered(WaterSystemId system) {
        List<PlanView> ofSalinity = rows.bySystem(system).stream()
                .filter(plan -> plan.quantity() == Quantity.SALINITY)
                .toList();
        Optional<PlanView> open = ofSalinity.stream().filter(PlanView::open).findFirst();
        open.or(() -> ofSalinity.stream()
                        .filter(plan -> plan.state() == PlanState.DONE)
                        .findFirst())
                .ifPresent(plan -> {
                    ReadingView drawnFrom = readings.require(plan.readingId());
                    if (basis.readOverLowSump(drawnFrom)) {
                        takeBack(plan, drawnFrom);
                    } else if (plan.open()) {
                        Optional.ofNullable(basis.newest(system).get(Quantity.SALINITY))
                                .filter(newest -> !newest.id().equals(drawnFrom.id()))
                                .ifPresent(newest -> redraw(plan, newest));
                    }
                });
    }

    private void takeBack(PlanView plan, ReadingView low) {
        boolean madeFromIt = !low.recordedAt().isAfter(plan.createdAt());
        if (madeFromIt && plan.state() == PlanState.PROPOSED) {
            // It cannot be followed before the next reading has drawn it anew.
            return;
        }
        lock.hold("plans " + plan.systemId());
        Optional<ReadingView> sound = madeFromIt
                ? Optional.empty()
                : basis.soundSalinity(plan.systemId(), clock.instant().plusSeconds(1));
        if (sound.isEmpty()) {
            stop(plan, "SUMP_LOW");
            tell(plan, "plans.followup.sump-low", Urgency.NOW);
            return;
        }
        if (plan.state() == PlanState.DONE) {
            if (isDoneAt(sound.get(), plan)) {
                return;
            }
            reopen(plan);
        }
        if (sound.get().takenAt().isAfter(low.takenAt())) {
            redraw(require(plan.id()), sound.get());
        } else {
            LocalDate readOn = day(sound.get().takenAt());
            drawFromLastStep(
                    plan,
                    sound.get().id(),
                    PlanBasis.value(sound.get()).orElseThrow(),
                    readOn,
                    step -> !step.on().isBefore(readOn));
        }
    }

    private void reopen(PlanView plan) {
        boolean followed = changes.of("plan", plan.id().value()).stream()
                .anyMatch(line -> line.action().equals("started"));
        rows.state(plan.id(), followed ? PlanState.RUNNING : PlanState.PROPOSED, Optional.empty());
        changes.record("plan", plan.id(), "reopened", Map.of());
    }

    /** From what was read, or what the last step that was made of it so far has made of the water. */
    private void drawFromLastStep(
            PlanView plan, ReadingId reading, double read, LocalDate readOn, Predicate<PlanStep> ofIt) {
        LocalDate today = dueVisits.today();
        Optional<PlanStep> last = lastStep(plan, today, ofIt);
        draw(
                plan,
                reading,
                last.map(PlanStep::after).orElse(read),
                last.map(PlanStep::on).orElse(readOn),
                today);
    }

    private static Optional<PlanStep> lastStep(PlanView plan, LocalDate today, Predicate<PlanStep> ofIt) {
        return plan.steps().stream()
                .filter(step -> step.on().isBefore(today))
                .filter(ofIt)
                .reduce((one, next) -> next);
    }

    private void draw(PlanView plan, ReadingId reading, double from, LocalDate readOn, LocalDate earliest) {
        dueVisits.withdraw(plan.id().value());
        try {
            PlanDrawing drawing = drawing(plan, from, readOn, earliest);
            rows.redrawn(plan.id(), reading, from, readOn, Optional.of(drawing), earliest);
        } catch (OutOfRangeException unreachable) {
            stop(plan, "UNREACHABLE");
            return;
        }
        PlanView drawn = require(plan.id());
        if (drawn.state() == PlanState.RUNNING) {
            if (drawn.ammoniaFirst()) {
                stopForAmmonia(drawn);
            } else {
                bringToVisits(drawn);
            }
        }
    }

    private PlanDrawing drawing(PlanView plan, double from, LocalDate readOn, LocalDate earliest) {
        WaterSystemView system = systems.require(plan.systemId());
        List<PlannedVisitView> free = visits.free(plan.systemId(), plan.quantity()).stream()
                .filter(visit ->
                        earliest.equals(dueVisits.today()) || !visit.dueOn().isBefore(earliest))
                .toList();
        double perDay = rates.of(plan.systemId(), plan.quantity())
                .towards(from, plan.to())
                .orElse(plan.perDay());
        DailyRise.Held held = new DailyRise.Held(system, plan.quantity(), perDay, plan.salt(), plan.purity());
        PlanDrawing.Terms terms = new PlanDrawing.Terms(
                system,
                plan.quantity(),
                plan.to(),
                perDay,
                plan.salt(),
                plan.purity(),
                plan.newWater(),
                plan.addedPerDay(),
                plan.usedPerDay(),
                plan.carryLitres(),
                plan.carryKilograms(),
                business.current().saltYield(),
                basis.believed(plan.systemId()),
                basis.ammonia(plan.systemId()),
                visit -> rise.agreed(held, visit));
        return PlanDrawing.draw(terms, from, readOn, free, earliest);
    }

    /** A plan that rests on a reading that nobody believes any more stops and says so. */
    @EventListener
    void on(ReadingsNoLongerTrusted doubted) {
        rows.open().stream()
                .filter(plan -> doubted.readings().contains(plan.readingId()))
                .forEach(plan -> {
                    lock.hold("plans " + plan.systemId());
                    stop(plan, "READING_DOUBTED");
                    tell(plan, "plans.followup.doubted", Urgency.NOW);
                });
    }

    private void tell(PlanView plan, String code, Urgency urgency) {
        followups.open(new NewFollowup(
                code,
                List.of(systems.require(plan.systemId()).name()),
                urgency,
                "water-system",
                plan.systemId().value(),
                "plan-stopped:" + plan.id(),
                "/plans/" + plan.id()));
    }

    /** Steps of visits that no longer come move to those that do. */
    @EventListener
    void on(DueVisitsRemoved removed) {
        rows.open().stream()
                .filter(plan ->
                        plan.steps().stream().anyMatch(step -> removed.visits().contains(step.visit())))
                .forEach(plan -> {
                    lock.hold("plans " + plan.systemId());
                    drawFromLastStep(plan, plan.readingId(), plan.from(), plan.readOn(), step -> true);
                });
    }

    private PlanView require(CorrectivePlanId id) {
        return rows.find(id).orElseThrow(() -> new NotFound("plan", id));
    }

    private LocalDate day(Instant instant) {
        return LocalDate.ofInstant(instant, business.zone());
    }
}
