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
import app.tankround.persistence.RecordLock;
import app.tankround.readings.ReadingView;
import app.tankround.schedule.DueVisits;
import app.tankround.tanks.EquipmentView;
import app.tankround.tanks.TargetView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Mass;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Works plans out. A new one is looked at before anybody follows it: until then no visit knows of it. */
@Service
@Transactional
public class PlanMaking {

    /** Litres and kilograms that a visit is said to bring at most. */
    public static final double HIGHEST_CARRY = 20_000;

    private static final int LONGEST_REASON = 500;
    /** By what a limit that is shown with one decimal, or two for pH, may differ from the one that is held. */
    private static final double ROUNDING = 0.05;

    private static final double PH_ROUNDING = 0.005;

    /** Words of devices that dose, or dissolve what raises alkalinity or calcium. */
    private static final Pattern ADDS_DAILY =
            Pattern.compile("reactor|dos(?:ing|er)|lime|kalk", Pattern.CASE_INSENSITIVE);

    private static final double LITRES_WITHOUT_VAN = 20;
    private static final double KILOGRAMS_WITHOUT_VAN = 23;

    private final PlanRows rows;
    private final PlanBasis basis;
    private final PlanVisits visits;
    private final SafeRates rates;
    private final DailyRise rise;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final Fleet fleet;
    private final BusinessProfile business;
    private final CurrentPerson currentPerson;
    private final ChangeLog changes;
    private final RecordLock lock;
    private final Clock clock;

    PlanMaking(
            PlanRows rows,
            PlanBasis basis,
            PlanVisits visits,
            SafeRates rates,
            DailyRise rise,
            DueVisits dueVisits,
            WaterSystems systems,
            Fleet fleet,
            BusinessProfile business,
            CurrentPerson currentPerson,
            ChangeLog changes,
            RecordLock lock,
            Clock clock) {
        this.rows = rows;
        this.basis = basis;
        this.visits = visits;
        this.rates = rates;
        this.rise = rise;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.fleet = fleet;
        this.business = business;
        this.currentPerson = currentPerson;
        this.changes = changes;
        this.lock = lock;
        this.clock = clock;
    }

    /**
     * What a visit to a system can bring: the least of what the vans are made for, or one can and one pair of arms; where
     * the agreement has more water changed, that much comes anyway.
     */
    @Transactional(readOnly = true)
    public Carry usualCarry(WaterSystemId id) {
        WaterSystemView system = systems.require(id);
        List<VanView> vans = fleet.vans();
        double drum =
                vans.stream().mapToDouble(van -> van.drum().litres()).min().orElse(LITRES_WITHOUT_VAN);
        double agreed = dueVisits.dueFor(id).stream()
                .mapToDouble(visit -> PlanVisits.agreedLitres(visit, system))
                .min()
                .orElse(0);
        double kilograms = vans.stream()
                .mapToDouble(van -> van.payload().kilograms() - van.fixedLoad().kilograms())
                .filter(free -> free > 0)
                .min()
                .orElse(KILOGRAMS_WITHOUT_VAN);
        return new Carry(Volume.ofLitres(Math.max(drum, agreed)), Mass.ofKilograms(kilograms));
    }

    /** What stands at a system and may add the quantity every day, as far as its kind and name tell. */
    @Transactional(readOnly = true)
    public List<EquipmentView> addingDaily(WaterSystemId system, Quantity quantity) {
        if (quantity != Quantity.ALKALINITY && quantity != Quantity.CALCIUM && quantity != Quantity.MAGNESIUM) {
            return List.of();
        }
        return systems.equipment(system).stream()
                .filter(equipment -> ADDS_DAILY
                        .matcher(equipment.kind() + " " + equipment.name())
                        .find())
                .toList();
    }

    /** The middle of a system's target in the unit of plans, where both limits are known; else the one that is. */
    @Transactional(readOnly = true)
    public Optional<Double> middleOfTarget(WaterSystemId system, Quantity quantity) {
        return systems.targets(system).stream()
                .filter(target -> target.quantity() == quantity)
                .findFirst()
                .map(PlanTargets::middle);
    }

    /**
     * Works a plan out from the newest reading. Sending the same again adds nothing.
     *
     * @throws FieldRefusal where the reading is not believed or was read while the sump was low, something else comes first, nobody has set a safe rate, or
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
        if (basis.readOverLowSump(reading)) {
            throw new FieldRefusal("quantity", "plans.sump-low");
        }
        double from =
                PlanBasis.value(reading).orElseThrow(() -> new FieldRefusal("quantity", "plans.reading-no-number"));
        double perDay = rates.of(system.id(), quantity)
                .towards(from, asked.to())
                .orElseThrow(() -> new FieldRefusal("quantity", "plans.rate-missing"));
        List<PlanView> open = visits.openPlans(system.id());
        if (open.stream().anyMatch(plan -> plan.quantity() == quantity)) {
            throw new FieldRefusal("quantity", "plans.already-open");
        }
        requireNothingFirst(system, quantity, open);
        boolean raising = asked.to() > from;
        if (raising && (quantity == Quantity.NITRATE || quantity == Quantity.PHOSPHATE)) {
            throw new FieldRefusal("to", "plans.only-lowered", asked.to(), 0, from);
        }
        requireBearable(asked, system);
        double limewater = fromLimewater(asked, system);
        LocalDate today = dueVisits.today();
        DailyRise.Held held = new DailyRise.Held(system, quantity, perDay, asked.salt(), asked.purity());
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
                basis.ammonia(system.id()),
                visit -> rise.agreed(held, visit));
        if (raising
                && terms.salt().isEmpty()
                && (quantity == Quantity.MAGNESIUM
                        || quantity == Quantity.ALKALINITY
                        || quantity == Quantity.CALCIUM)) {
            throw new FieldRefusal("salt", "plans.salt-missing");
        }
        LocalDate readOn = LocalDate.ofInstant(reading.takenAt(), business.zone());
        PlanDrawing drawing = drawn(terms, from, readOn, today);
        rows.insert(asked.id(), terms, reading.id(), from, readOn, drawing, currentPerson.id(), clock.instant());
        changes.record(
                "plan",
                asked.id(),
                "added",
                Map.of(
                        "quantity",
                        quantity.name(),
                        "from",
                        String.valueOf(from),
                        "to",
                        String.valueOf(asked.to()),
                        "because",
                        asked.because().orElse("")));
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

    /** A target at which nothing lives is refused; one outside the system's own needs a reason. */
    private void requireBearable(NewPlan asked, WaterSystemView system) {
        Quantity quantity = asked.quantity();
        PlanWords words = new PlanWords(business.unitSystem(), LocaleContextHolder.getLocale());
        String to = words.value(quantity, asked.to());
        LifeRange.of(system.kind(), quantity)
                .filter(range -> !range.contains(asked.to()))
                .ifPresent(range -> {
                    throw new FieldRefusal(
                            "to",
                            "plans.target-kills",
                            to,
                            words.value(quantity, range.low()),
                            words.value(quantity, range.high()));
                });
        Optional<String> because = asked.because()
                .flatMap(text -> Optional.ofNullable(TextInput.optional("because", text, LONGEST_REASON)))
                .map(text -> TextInput.inWords("because", text));
        Optional<TargetView> target = systems.targets(system.id()).stream()
                .filter(each -> each.quantity() == quantity)
                .findFirst();
        Optional<Double> low = target.flatMap(PlanTargets::low);
        Optional<Double> high = target.flatMap(PlanTargets::high);
        double rounding = quantity == Quantity.PH ? PH_ROUNDING : ROUNDING;
        boolean outside = low.filter(limit -> asked.to() < limit - rounding).isPresent()
                || high.filter(limit -> asked.to() > limit + rounding).isPresent();
        if (outside && because.isEmpty()) {
            String side = low.isEmpty() ? ".below" : high.isEmpty() ? ".above" : "";
            throw new FieldRefusal(
                    "to",
                    "plans.target-outside" + side,
                    to,
                    low.map(limit -> words.value(quantity, limit)).orElse(""),
                    high.map(limit -> words.value(quantity, limit)).orElse(""));
        }
    }

    /** What limewater adds in a day; refused above what evaporates, since it would raise the water. */
    private static double fromLimewater(NewPlan asked, WaterSystemView system) {
        within(
                "limewaterPerDay",
                asked.limewaterPerDay(),
                0,
                system.evaporationPerDay().litres());
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

    private PlanDrawing drawn(PlanDrawing.Terms terms, double from, LocalDate readOn, LocalDate today) {
        LocalDate first = readOn.isAfter(today) ? today : readOn;
        try {
            return PlanDrawing.draw(
                    terms, from, first, visits.free(terms.system().id(), terms.quantity()), today);
        } catch (OutOfRangeException unreachable) {
            throw new FieldRefusal(
                    "to",
                    "plans.unreachable",
                    terms.to(),
                    unreachable.refusal().low(),
                    unreachable.refusal().high());
        }
    }
}
