package app.tankround.plans;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.VanView;
import app.tankround.chemistry.CorrectivePlan.Carry;
import app.tankround.chemistry.Limewater;
import app.tankround.chemistry.PlanOrder;
import app.tankround.chemistry.VerdictCode;
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
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Mass;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.springframework.context.MessageSource;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Corrective plans. A plan is worked out, looked at and then followed: from then on its steps are tasks of the visits to
 * come, every new reading draws what is left anew, and a reading that is no longer believed stops it.
 */
@Service
@Transactional
public class CorrectivePlans {

    private static final MathContext DIGITS = new MathContext(3, RoundingMode.HALF_EVEN);
    private static final double LITRES_WITHOUT_VAN = 20;
    private static final double KILOGRAMS_WITHOUT_VAN = 23;
    private static final double HIGHEST_CARRY = 20_000;
    private static final int LONGEST_REASON = 500;

    /** Less is not worth a task of its own. */
    private static final double LEAST_LITRES = 0.05;

    private static final Duration SHORT_MEMORY = Duration.ofDays(120);

    private final PlanRows rows;
    private final PlanBasis basis;
    private final SafeRates rates;
    private final ReadingService readings;
    private final DecisionRegister decisions;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final Fleet fleet;
    private final BusinessProfile business;
    private final CurrentPerson currentPerson;
    private final Followups followups;
    private final ChangeLog changes;
    private final RecordLock lock;
    private final MessageSource messages;
    private final Clock clock;

    CorrectivePlans(
            PlanRows rows,
            PlanBasis basis,
            SafeRates rates,
            ReadingService readings,
            DecisionRegister decisions,
            DueVisits dueVisits,
            WaterSystems systems,
            Fleet fleet,
            BusinessProfile business,
            CurrentPerson currentPerson,
            Followups followups,
            ChangeLog changes,
            RecordLock lock,
            MessageSource messages,
            Clock clock) {
        this.rows = rows;
        this.basis = basis;
        this.rates = rates;
        this.readings = readings;
        this.decisions = decisions;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.fleet = fleet;
        this.business = business;
        this.currentPerson = currentPerson;
        this.followups = followups;
        this.changes = changes;
        this.lock = lock;
        this.messages = messages;
        this.clock = clock;
    }

    // Reading

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public PlanView require(CorrectivePlanId id) {
        return rows.find(id).orElseThrow(() -> new NotFound("plan", id));
    }

    /** All plans that are followed or still to be decided on, the oldest first. */
    @Transactional(readOnly = true)
    public List<PlanView> open() {
        return rows.open();
    }

    /** The plans of a system, the newest first. */
    @Transactional(readOnly = true)
    public List<PlanView> bySystem(WaterSystemId system) {
        return rows.bySystem(system);
    }

    /** What the newest believed reading of each quantity says, in the units of plans. */
    @Transactional(readOnly = true)
    public Map<Quantity, Double> known(WaterSystemId system) {
        return basis.believed(system);
    }

    /** The most that the newest reading of total ammonia may mean, mg/L; empty if it was never measured. */
    @Transactional(readOnly = true)
    public Optional<Double> ammonia(WaterSystemId system) {
        return Optional.ofNullable(basis.newest(system).get(Quantity.AMMONIA)).flatMap(PlanBasis::atMost);
    }

    /** What a visit can bring: the least of what the vans are made for, or one can and one pair of arms. */
    @Transactional(readOnly = true)
    public Carry usualCarry() {
        List<VanView> vans = fleet.vans();
        double litres =
                vans.stream().mapToDouble(van -> van.drum().litres()).min().orElse(LITRES_WITHOUT_VAN);
        double kilograms = vans.stream()
                .mapToDouble(van -> van.payload().kilograms() - van.fixedLoad().kilograms())
                .filter(free -> free > 0)
                .min()
                .orElse(KILOGRAMS_WITHOUT_VAN);
        return new Carry(Volume.ofLitres(litres), Mass.ofKilograms(kilograms));
    }

    /** The salinity that the new water of a visit is mixed to, where a plan that is followed says so. */
    @Transactional(readOnly = true)
    public Optional<Double> newWaterSalinity(WaterSystemId system, PlannedVisitId visit) {
        return rows.bySystem(system).stream()
                .filter(plan -> plan.state() == PlanState.RUNNING && plan.quantity() == Quantity.SALINITY)
                .flatMap(plan -> plan.steps().stream())
                .filter(step -> step.visit().equals(visit))
                .findFirst()
                .flatMap(PlanStep::newWater);
    }

    /**
     * Whether the salinity of a system was lately read on an instrument that is no longer believed: its new water was
     * then mixed by the same one, so that both matched, and the animals live in the real salinity.
     */
    @Transactional(readOnly = true)
    public boolean matchedByCondemned(WaterSystemId system) {
        Instant now = clock.instant();
        return readings.series(system, Quantity.SALINITY, now.minus(SHORT_MEMORY), now.plusSeconds(1)).stream()
                .anyMatch(reading -> reading.assessment().doubtful());
    }

    /** The middle of a system's target in the unit of plans, where both limits are known; else the one that is. */
    @Transactional(readOnly = true)
    public Optional<Double> middleOfTarget(WaterSystemId system, Quantity quantity) {
        return systems.targets(system).stream()
                .filter(target -> target.quantity() == quantity)
                .findFirst()
                .map(PlanTargets::middle);
    }

    // Making

    /**
     * Works a plan out from the newest reading. Sending the same again adds nothing.
     *
     * @throws FieldRefusal where the reading is not believed, something else comes first, nobody has set a safe rate, or
     *     the means do not lead to the target
     */
    public CorrectivePlanId propose(NewPlan asked) {
        lock.hold("plans " + asked.systemId());
        if (rows.find(asked.id()).isPresent()) {
            return asked.id();
        }
        WaterSystemView system = systems.require(asked.systemId());
        Quantity quantity = asked.quantity();
        if (!SafeRates.PLANNED.contains(quantity)) {
            throw new FieldRefusal("quantity", "plans.no-plan-for", quantity.name());
        }
        within("carryLitres", asked.carryLitres(), 0, HIGHEST_CARRY);
        within("carryKilograms", asked.carryKilograms(), 0, HIGHEST_CARRY);
        ReadingView reading = Optional.ofNullable(basis.newest(system.id()).get(quantity))
                .orElseThrow(() -> new FieldRefusal("quantity", "plans.no-reading"));
        if (!PlanBasis.believed(reading)) {
            throw new FieldRefusal("quantity", "plans.reading-not-believed");
        }
        double from =
                PlanBasis.value(reading).orElseThrow(() -> new FieldRefusal("quantity", "plans.reading-no-number"));
        double perDay = rates.of(system.id(), quantity)
                .towards(from, asked.to())
                .orElseThrow(() -> new FieldRefusal("quantity", "plans.rate-missing"));
        List<PlanView> open = openOf(system.id());
        if (open.stream().anyMatch(plan -> plan.quantity() == quantity)) {
            throw new FieldRefusal("quantity", "plans.already-open");
        }
        requireNothingFirst(system, quantity, open);
        boolean raising = asked.to() > from;
        if (raising && (quantity == Quantity.NITRATE || quantity == Quantity.PHOSPHATE)) {
            throw new FieldRefusal("to", "plans.only-lowered", asked.to(), 0, from);
        }
        double limewater = fromLimewater(asked, system);
        LocalDate today = dueVisits.today();
        PlanDrawing.Terms terms = new PlanDrawing.Terms(
                system,
                quantity,
                asked.to(),
                perDay,
                raising ? asked.salt() : Optional.empty(),
                asked.purity(),
                asked.newWater(),
                asked.addedPerDay() + limewater,
                asked.usedPerDay(),
                asked.carryLitres(),
                asked.carryKilograms(),
                business.current().saltYield(),
                basis.believed(system.id()),
                ammonia(system.id()));
        if (raising
                && terms.salt().isEmpty()
                && (quantity == Quantity.MAGNESIUM
                        || quantity == Quantity.ALKALINITY
                        || quantity == Quantity.CALCIUM)) {
            throw new FieldRefusal("salt", "plans.salt-missing");
        }
        LocalDate readOn = day(reading.takenAt());
        PlanDrawing drawing = drawn(terms, from, readOn, today, free(system.id(), quantity, open), today);
        rows.insert(asked.id(), terms, reading.id(), from, readOn, drawing, currentPerson.id(), clock.instant());
        changes.record(
                "plan",
                asked.id(),
                "added",
                Map.of("quantity", quantity.name(), "from", String.valueOf(from), "to", String.valueOf(asked.to())));
        return asked.id();
    }

    private void requireNothingFirst(WaterSystemView system, Quantity quantity, List<PlanView> open) {
        Map<Quantity, ReadingView> newest = basis.newest(system.id());
        for (Quantity earlier : PlanOrder.before(quantity)) {
            VerdictCode verdict = Optional.ofNullable(newest.get(earlier))
                    .map(reading -> reading.assessment().verdict())
                    .orElse(VerdictCode.NO_TARGET);
            boolean wrong = verdict == VerdictCode.ABOVE || verdict == VerdictCode.BELOW;
            if (wrong || open.stream().anyMatch(plan -> plan.quantity() == earlier)) {
                throw new FieldRefusal("quantity", "plans.first." + earlier);
            }
        }
    }

    /** What limewater adds in a day; refused above what evaporates, since it would raise the water. */
    private static double fromLimewater(NewPlan asked, WaterSystemView system) {
        double evaporated = system.evaporationPerDay().litres();
        within("limewaterPerDay", asked.limewaterPerDay(), 0, evaporated);
        if (asked.limewaterPerDay() == 0) {
            return 0;
        }
        double strength = Limewater.saturated(Temperature.ofCelsius(25)).value();
        Volume added = Volume.ofLitres(asked.limewaterPerDay());
        return switch (asked.quantity()) {
            case ALKALINITY ->
                Limewater.alkalinityAdded(strength, added, system.netVolume()).inDkh();
            case CALCIUM ->
                Limewater.calciumAdded(strength, added, system.netVolume()).milligramsPerLitre();
            default -> 0;
        };
    }

    private static void within(String field, double value, double low, double high) {
        if (!(value >= low && value <= high)) {
            throw new FieldRefusal(field, "web.number-out-of-range", value, low, high);
        }
    }

    private static PlanDrawing drawn(
            PlanDrawing.Terms terms,
            double from,
            LocalDate readOn,
            LocalDate earliest,
            List<PlannedVisitView> visits,
            LocalDate today) {
        LocalDate first = readOn.isAfter(today) ? today : readOn;
        try {
            return PlanDrawing.draw(terms, from, first, visits, earliest);
        } catch (OutOfRangeException unreachable) {
            throw new FieldRefusal(
                    "to",
                    "plans.unreachable",
                    terms.to(),
                    unreachable.refusal().low(),
                    unreachable.refusal().high());
        }
    }

    /** The visits to come on which no plan works that must not work together with this one. */
    private List<PlannedVisitView> free(WaterSystemId system, Quantity quantity, List<PlanView> open) {
        Set<PlannedVisitId> taken = new HashSet<>();
        open.stream()
                .filter(other -> other.quantity() != quantity && !PlanOrder.together(other.quantity(), quantity))
                .flatMap(other -> other.steps().stream())
                .forEach(step -> taken.add(step.visit()));
        return dueVisits.dueFor(system).stream()
                .filter(visit -> !taken.contains(visit.id()))
                .toList();
    }

    private List<PlanView> openOf(WaterSystemId system) {
        return rows.bySystem(system).stream()
                .filter(plan -> plan.state() == PlanState.PROPOSED || plan.state() == PlanState.RUNNING)
                .toList();
    }

    // Following

    /**
     * From now on the steps are tasks of the visits to come.
     *
     * @throws FieldRefusal if it is not a proposed plan, its first step would harm by the ammonia that it sets free, or its
     *     reading is no longer believed
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
        Map<PlannedVisitId, PlannedVisitView> visits = new HashMap<>();
        dueVisits.find(ahead.stream().map(PlanStep::visit).toList()).forEach(visit -> visits.put(visit.id(), visit));
        ahead.forEach(step -> Optional.ofNullable(visits.get(step.visit()))
                .ifPresent(
                        visit -> dueVisits.propose(visit.id(), plan.id().value(), tasks(plan, step, visit, system))));
        ahead.stream()
                .findFirst()
                .ifPresent(next -> decisions.register(
                        "plan-step",
                        "water-system",
                        plan.systemId().value(),
                        "/plans/" + plan.id(),
                        "plans.decision.step." + plan.quantity(),
                        List.of(
                                rounded(next.before()).toPlainString(),
                                rounded(next.after()).toPlainString(),
                                system.name()),
                        List.of(plan.readingId())));
    }

    private List<TaskView> tasks(PlanView plan, PlanStep step, PlannedVisitView visit, WaterSystemView system) {
        List<TaskView> tasks = new ArrayList<>();
        boolean asked = visit.tasks().stream()
                .anyMatch(
                        task -> task.quantity().filter(plan.quantity()::equals).isPresent());
        if (!asked) {
            tasks.add(TaskView.test(plan.quantity()));
        }
        plan.salt()
                .filter(salt -> step.productKilograms() > 0)
                .ifPresent(
                        salt -> tasks.add(TaskView.dose(salt.formula(), rounded(1000 * step.productKilograms()), "g")));
        if (step.waterLitres() > 0) {
            moreWater(step.waterLitres(), visit, system).ifPresent(tasks::add);
        }
        if (plan.salt().isEmpty()) {
            Object[] args = {
                rounded(step.before()).toPlainString(),
                rounded(step.after()).toPlainString(),
                step.newWater().map(value -> rounded(value).toPlainString()).orElse(""),
                rounded(step.waterLitres()).toPlainString()
            };
            tasks.add(TaskView.work(messages.getMessage(
                    "plans.task." + plan.quantity(), args, business.current().locale())));
        }
        return tasks;
    }

    /** What is to be changed beyond what is agreed anyway. */
    private static Optional<TaskView> moreWater(double litres, PlannedVisitView visit, WaterSystemView system) {
        AgreedChange agreed = AgreedChange.of(visit, system.netVolume());
        double more = litres - agreed.byShare();
        return more > Math.max(agreed.byVolume(), LEAST_LITRES)
                ? Optional.of(TaskView.waterChangeLitres(rounded(more)))
                : Optional.empty();
    }

    private static BigDecimal rounded(double value) {
        BigDecimal number = new BigDecimal(value);
        return new BigDecimal(number.round(value >= 1000 ? new MathContext(4) : DIGITS)
                .stripTrailingZeros()
                .toPlainString());
    }

    // Redrawing

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
    }

    private void redraw(PlanView plan, ReadingView reading) {
        ReadingView before = readings.require(plan.readingId());
        Optional<Double> value = PlanBasis.value(reading);
        if (reading.takenAt().isBefore(before.takenAt()) || !PlanBasis.believed(reading) || value.isEmpty()) {
            return;
        }
        lock.hold("plans " + plan.systemId());
        double from = value.get();
        double left = plan.to() > plan.first() ? plan.to() - from : from - plan.to();
        if (left <= PlanBasis.uncertainty(reading)) {
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

    private void draw(PlanView plan, ReadingId reading, double from, LocalDate readOn, LocalDate earliest) {
        dueVisits.withdraw(plan.id().value());
        WaterSystemView system = systems.require(plan.systemId());
        List<PlannedVisitView> visits = free(plan.systemId(), plan.quantity(), openOf(plan.systemId())).stream()
                .filter(visit ->
                        earliest.equals(dueVisits.today()) || !visit.dueOn().isBefore(earliest))
                .toList();
        PlanDrawing.Terms terms = new PlanDrawing.Terms(
                system,
                plan.quantity(),
                plan.to(),
                rates.of(plan.systemId(), plan.quantity())
                        .towards(from, plan.to())
                        .orElse(plan.perDay()),
                plan.salt(),
                plan.purity(),
                plan.newWater(),
                plan.addedPerDay(),
                plan.usedPerDay(),
                plan.carryLitres(),
                plan.carryKilograms(),
                business.current().saltYield(),
                basis.believed(plan.systemId()),
                ammonia(plan.systemId()));
        try {
            PlanDrawing drawing = PlanDrawing.draw(terms, from, readOn, visits, earliest);
            rows.redrawn(plan.id(), reading, from, readOn, Optional.of(drawing), earliest);
        } catch (OutOfRangeException unreachable) {
            stop(plan, "UNREACHABLE");
            return;
        }
        PlanView drawn = require(plan.id());
        if (drawn.state() == PlanState.RUNNING) {
            if (drawn.ammoniaFirst()) {
                stop(drawn, "AMMONIA");
                tell(drawn, "plans.followup.ammonia", Urgency.NOW);
            } else {
                bringToVisits(drawn);
            }
        }
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
        LocalDate today = dueVisits.today();
        rows.open().stream()
                .filter(plan ->
                        plan.steps().stream().anyMatch(step -> removed.visits().contains(step.visit())))
                .forEach(plan -> {
                    lock.hold("plans " + plan.systemId());
                    Optional<PlanStep> last = plan.steps().stream()
                            .filter(step -> step.on().isBefore(today))
                            .reduce((one, next) -> next);
                    draw(
                            plan,
                            plan.readingId(),
                            last.map(PlanStep::after).orElse(plan.from()),
                            last.map(PlanStep::on).orElse(plan.readOn()),
                            today);
                });
    }

    private LocalDate day(Instant instant) {
        return LocalDate.ofInstant(instant, business.zone());
    }
}
