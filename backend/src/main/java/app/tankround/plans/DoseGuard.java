package app.tankround.plans;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.AmmoniaOnRise;
import app.tankround.chemistry.Salt;
import app.tankround.chemistry.SupplementDose;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.persistence.RecordLock;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Alkalinity;
import app.tankround.units.MassConcentration;
import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Looks at every dose before it counts, whoever enters it: not within the product's interval, not above what a day may
 * bring, alkalinity and calcium never together, copper where it kills, and nothing that must not reach a plate. Always by
 * the net volume.
 */
@Service
@Transactional
public class DoseGuard {

    /** dKH; copper is not given to fresh water of less than 50 mg/L of CaCO3: extension practice, from memory. */
    static final double SOFT_DKH =
            Alkalinity.ofMilligramsPerLitreCalciumCarbonate(50).inDkh();

    /** Between alkalinity and calcium, so that they do not meet: own choice. */
    private static final Duration APART = Duration.ofHours(12);

    private static final Duration DAY = Duration.ofDays(1);

    /** What was given longer ago explains no reading of today; as {@link app.tankround.chemistry.Surprise} has it. */
    private static final Duration REMEMBERED = Duration.ofDays(60);

    /**
     * What arrives later than this after it is said to have been given counts for both moments: a device that was out of reach
     * for a day tells the truth, one whose clock is behind does not, and nobody can tell them apart. Own choice.
     */
    private static final Duration BELIEVED_FOR = Duration.ofHours(12);

    /** Of the day's sum: what a scale and a rounded task may miss by. */
    private static final double ROUNDING = 0.02;

    /**
     * A dose as entered.
     *
     * @param key names the line, so that a corrected entry counts once
     * @param visit at which it was given
     * @param agreed whether it is known by a ticked task alone; an entry of the same product at that visit says more
     * @param unit mL or g
     * @param prepared whether a person said that all is ready for a medicine: media out, lamps off, the kit fits
     * @param givenBecause why it was given although the guard speaks against it; empty before anybody gave it
     * @param further whether it was given besides a ticked dose of the same product at that visit, or tells more of that one;
     *     empty before anybody said so
     */
    public record Dose(
            String key,
            UUID visit,
            boolean agreed,
            WaterSystemView system,
            String product,
            double amount,
            String unit,
            Instant at,
            boolean prepared,
            Optional<String> givenBecause,
            Optional<Boolean> further) {

        boolean isFurther() {
            return further.orElse(false);
        }
    }

    /** Something to know of a dose that may be given; shown as the message of its code. */
    public record Note(String code, List<String> args) {

        public Note {
            args = List.copyOf(args);
        }
    }

    /** A product that was given although no limit is known for it, to so many systems, last on that day. */
    public record Unlimited(String product, int systems, LocalDate last) {}

    /** @param moments at which it may have been given */
    private record Given(
            String product, double amount, String unit, Instant at, List<Instant> moments, boolean sameDose) {}

    private record Place(String product, UUID system, Instant last) {}

    /** Refusals of what kills or harms the animals that are there. */
    private static final Set<String> DANGERS = Stream.concat(
                    RisingPh.REFUSALS.stream(),
                    Stream.of("plans.dose.copper-animals", "plans.dose.copper-soft", "plans.dose.copper-unknown"))
            .collect(Collectors.toUnmodifiableSet());

    /** Refusals because of who will eat the animals. */
    private static final Set<String> EATEN = Set.of("plans.dose.eaten", "plans.dose.eaten-unknown");

    /**
     * What was looked at: what to know of the dose, and the codes of what spoke against one that was given all the same.
     *
     * @param entered whether it is a tick beside an entry of the visit, which was looked at and counts
     */
    public record Looked(List<Note> notes, Set<String> against, boolean entered) {

        public Looked {
            notes = List.copyOf(notes);
            against = Set.copyOf(against);
        }
    }

    private final JdbcClient jdbc;
    private final DoseRules rules;
    private final SafeRates rates;
    private final PlanBasis basis;
    private final RisingPh risingPh;
    private final DailyRise rise;
    private final PlanRows plans;
    private final Treatments treatments;
    private final WaterSystems systems;
    private final Followups followups;
    private final BusinessProfile business;
    private final RecordLock lock;
    private final Clock clock;

    DoseGuard(
            JdbcClient jdbc,
            DoseRules rules,
            SafeRates rates,
            PlanBasis basis,
            RisingPh risingPh,
            DailyRise rise,
            PlanRows plans,
            Treatments treatments,
            WaterSystems systems,
            Followups followups,
            BusinessProfile business,
            RecordLock lock,
            Clock clock) {
        this.jdbc = jdbc;
        this.rules = rules;
        this.rates = rates;
        this.basis = basis;
        this.risingPh = risingPh;
        this.rise = rise;
        this.plans = plans;
        this.treatments = treatments;
        this.systems = systems;
        this.followups = followups;
        this.business = business;
        this.lock = lock;
        this.clock = clock;
    }

    /**
     * Checks a dose, and lets no other be checked for the same system before this one counts or is given up. What was given
     * cannot be refused: with a reason everything that speaks against it is told instead.
     *
     * @return what to know of it, also that no limit is known and nothing was checked
     * @throws FieldRefusal if it must not be given and nobody says why it was
     */
    @Transactional(readOnly = true)
    public Looked check(Dose dose) {
        lock.hold("doses " + dose.system().id());
        if (dose.agreed() && isEntered(dose)) {
            return new Looked(List.of(), Set.of(), true);
        }
        requireSameOrFurther(dose);
        Set<String> against = new HashSet<>();
        hold(dose, against, () -> ProductName.requireOneAlphabet(dose.product()));
        Optional<DoseRuleView> rule = rules.of(dose.product());
        Optional<Salt> salt = NamedSalt.of(dose.product());
        DoseKind kind = kind(dose.product(), rule);
        boolean medicine = kind == DoseKind.MEDICATION || kind == DoseKind.COPPER;
        List<Note> notes = new ArrayList<>();
        hold(dose, against, () -> {
            if (dose.system().eaten()) {
                checkEaten(dose, kind, rule.isPresent() || salt.isPresent());
            }
        });
        hold(dose, against, () -> {
            if (kind == DoseKind.COPPER) {
                againstCopper(dose.system()).ifPresent(refused -> {
                    throw refused;
                });
            }
        });
        if (medicine && !dose.prepared() && dose.givenBecause().isEmpty()) {
            throw new FieldRefusal("prepared", "plans.dose.before-medicine");
        }
        hold(dose, against, () -> treatments.check(dose));
        hold(dose, against, () -> rule.ifPresent(known -> checkRule(dose, known)));
        hold(dose, against, () -> salt.ifPresent(known -> checkSalt(dose, known)));
        hold(dose, against, () -> {
            if (DailyRise.raisesPh(dose.product(), rule)) {
                risingPh.check(dose, salt).ifPresent(notes::add);
            }
        });
        unchecked(dose, rule, salt).ifPresent(notes::add);
        if (!against.isEmpty()) {
            boolean danger = against.stream().anyMatch(code -> DANGERS.contains(code) || EATEN.contains(code));
            notes.addFirst(new Note(danger ? "plans.dose.given-in-danger" : "plans.dose.given-against", List.of()));
        }
        return new Looked(notes, against, false);
    }

    /** Nobody can tell from a line alone whether it is the dose that was ticked, or as much again. */
    private void requireSameOrFurther(Dose dose) {
        if (!dose.agreed() && dose.further().isEmpty() && !atVisit(dose, true).isEmpty()) {
            throw new FieldRefusal(
                    "product", "plans.dose.same-or-further", dose.product().strip());
        }
    }

    private static void hold(Dose dose, Set<String> against, Runnable rule) {
        try {
            rule.run();
        } catch (FieldRefusal refused) {
            if (dose.givenBecause().isEmpty()) {
                throw refused;
            }
            against.add(refused.code());
        }
    }

    /** That nothing is known to hold the amount against. */
    private Optional<Note> unchecked(Dose dose, Optional<DoseRuleView> rule, Optional<Salt> salt) {
        boolean limited = rule.filter(DoseRuleView::limits).isPresent()
                || salt.map(known -> Quantity.valueOf(known.raises().name()))
                        .flatMap(quantity ->
                                rates.of(dose.system().id(), quantity).raising())
                        .isPresent()
                || treatments.running(dose.system().id(), dose.product()).isPresent();
        if (limited) {
            return Optional.empty();
        }
        boolean interval = rule.flatMap(DoseRuleView::leastHours).isPresent();
        return Optional.of(new Note(
                interval ? "plans.dose.no-daily-limit" : "plans.dose.no-limit",
                List.of(dose.product().strip())));
    }

    /** What a device takes along to tell at the tank what will be said of a dose. */
    @Transactional(readOnly = true)
    public DoseFacts facts(WaterSystemView system) {
        List<DoseRuleView> known = rules.all();
        int hours = known.stream()
                .flatMap(rule -> rule.leastHours().stream())
                .mapToInt(Integer::intValue)
                .max()
                .orElse(0);
        Duration within = Duration.ofHours(Math.max(hours, REMEMBERED.toHours()));
        double share = system.netVolume().litres() / 100;
        return new DoseFacts(
                known.stream()
                        .filter(rule -> rule.kind() != DoseKind.CONDITIONER)
                        .map(rule -> new DoseFacts.Limit(
                                ProductName.key(rule.product()),
                                rule.leastHours().orElse(0),
                                rule.mostPerDay().orElse(0.0) * share,
                                rule.unit(),
                                rule.kind() == DoseKind.ALKALINITY))
                        .toList(),
                given(system, clock.instant().minus(within)),
                Arrays.stream(Salt.values())
                        .filter(salt -> salt.raises() == Salt.Raises.ALKALINITY)
                        .map(salt -> new DoseFacts.AlkalinitySalt(
                                NamedSalt.names(salt), gramsFor(salt, system.netVolume(), 1)))
                        .toList(),
                new DoseFacts.Salts(NamedSalt.BESIDES, NamedSalt.raises()),
                NamedSalt.partsThatRaisePh(),
                risingPh.perDay(system.id()),
                new DoseFacts.Ammonia(RisingPh.NOTICEABLE_AMMONIA, RisingPh.MUCH_AMMONIA, AmmoniaOnRise.HARMS_FROM),
                medicines(system, known));
    }

    private DoseFacts.Medicines medicines(WaterSystemView system, List<DoseRuleView> known) {
        LocalDate today = day(clock.instant());
        return new DoseFacts.Medicines(
                DoseKind.tellingNames()
                        .map(kind -> new DoseFacts.Named(kind.name(), kind.needsOrderWhereEaten(), kind.parts()))
                        .toList(),
                known.stream()
                        .map(rule -> new DoseFacts.Stated(
                                ProductName.key(rule.product()), rule.kind().name()))
                        .toList(),
                againstCopper(system)
                        .map(refused -> new DoseFacts.Against(
                                refused.code(),
                                refused.args().stream().map(String::valueOf).toList())),
                system.kind().isSalt() ? Optional.empty() : Optional.of(SOFT_DKH),
                system.eaten(),
                system.eaten()
                        ? rules.orders(system.id()).stream()
                                .filter(order ->
                                        !today.isBefore(order.writtenOn()) && !today.isAfter(order.validUntil()))
                                .map(order -> ProductName.key(order.product()))
                                .toList()
                        : List.of());
    }

    private List<DoseFacts.Past> given(WaterSystemView system, Instant from) {
        return jdbc.sql("""
                        select key, product, amount, unit, given_at
                        from dose_given
                        where water_system_id = :system and given_at > :from
                        order by given_at desc, key
                        """)
                .param("system", system.id().value())
                .param("from", from.atOffset(ZoneOffset.UTC))
                .query((row, number) -> new DoseFacts.Past(
                        row.getString("key"),
                        ProductName.key(row.getString("product")),
                        row.getDouble("amount"),
                        row.getString("unit"),
                        row.getObject("given_at", OffsetDateTime.class)
                                .toInstant()
                                .toEpochMilli()))
                .list();
    }

    /** The last day on which a product was given to a system. */
    @Transactional(readOnly = true)
    public Optional<LocalDate> lastGiven(WaterSystemId system, String product) {
        return jdbc
                .sql("""
                        select product, max(given_at) as last
                        from dose_given
                        where water_system_id = :system
                        group by product
                        """)
                .param("system", system.value())
                .query((row, number) -> Map.entry(
                        row.getString("product"),
                        row.getObject("last", OffsetDateTime.class).toInstant()))
                .list()
                .stream()
                .filter(given -> ProductName.same(given.getKey(), product))
                .map(Map.Entry::getValue)
                .max(Comparator.naturalOrder())
                .map(this::day);
    }

    /**
     * Remembers a dose; entered again, it counts once. An entry takes the place of a ticked task for the same product at the
     * same visit, and a tick beside such an entry adds nothing. What was given against the guard opens a matter.
     *
     * @return keys of the ticked tasks whose place it takes; empty for a tick that adds nothing
     */
    public Optional<List<String>> given(Dose dose, Looked looked) {
        if (looked.entered()) {
            return Optional.empty();
        }
        List<String> replaced = dose.agreed() || dose.isFurther() ? List.of() : atVisit(dose, true);
        jdbc.sql("delete from dose_given where key = any(cast(:keys as text[]))")
                .param("keys", replaced.toArray(String[]::new))
                .update();
        boolean first = jdbc.sql("""
                        insert into dose_given (
                            key, visit_id, agreed, water_system_id, product, amount, unit, given_at, received_at,
                            further)
                        values (:key, :visit, :agreed, :system, :product, :amount, :unit, :at, :received, :further)
                        on conflict (key) do update
                        set visit_id = excluded.visit_id, water_system_id = excluded.water_system_id,
                            product = excluded.product, amount = excluded.amount, unit = excluded.unit,
                            given_at = excluded.given_at, received_at = excluded.received_at,
                            further = excluded.further
                        returning xmax = 0 as first
                        """)
                .param("key", dose.key())
                .param("visit", dose.visit())
                .param("agreed", dose.agreed())
                .param("system", dose.system().id().value())
                .param("product", dose.product().strip())
                .param("amount", dose.amount())
                .param("unit", dose.unit())
                .param("at", dose.at().atOffset(ZoneOffset.UTC))
                .param("received", clock.instant().atOffset(ZoneOffset.UTC))
                .param("further", dose.isFurther())
                .query(Boolean.class)
                .single();
        if (!first) {
            followups.settleTopic(topic(dose.key()), "plans.dose.corrected");
        }
        tell(dose, looked.against());
        return Optional.of(replaced);
    }

    /** A dose that was not given after all. */
    public void notGiven(String key) {
        int removed = jdbc.sql("delete from dose_given where key = :key")
                .param("key", key)
                .update();
        if (removed > 0) {
            followups.settleTopic(topic(key), "plans.dose.corrected");
        }
    }

    /** Whether an entry of this visit tells of the product already. */
    private boolean isEntered(Dose dose) {
        return !atVisit(dose, false).isEmpty();
    }

    /** Keys of what this visit tells of the product and the system so far, by ticked tasks or by entries. */
    private List<String> atVisit(Dose dose, boolean agreed) {
        return jdbc
                .sql("""
                        select key, product
                        from dose_given
                        where visit_id = :visit and agreed = :agreed and water_system_id = :system and not further
                        order by key
                        """)
                .param("visit", dose.visit())
                .param("agreed", agreed)
                .param("system", dose.system().id().value())
                .query((row, number) -> Map.entry(row.getString("key"), row.getString("product")))
                .list()
                .stream()
                .filter(told -> ProductName.same(told.getValue(), dose.product()))
                .map(Map.Entry::getKey)
                .toList();
    }

    private void tell(Dose dose, Set<String> against) {
        if (against.isEmpty()) {
            return;
        }
        boolean eaten = against.stream().anyMatch(EATEN::contains);
        boolean danger = against.stream().anyMatch(DANGERS::contains);
        String kind = danger ? "danger" : eaten ? "eaten" : "against";
        WaterSystemId system = dose.system().id();
        followups.open(new NewFollowup(
                "plans.followup.dose-" + kind,
                List.of(
                        dose.product().strip(),
                        dose.system().name(),
                        text(dose.amount()),
                        dose.unit(),
                        dose.givenBecause().orElse("")),
                danger ? Urgency.DEADLY : eaten ? Urgency.NOW : Urgency.TODAY,
                "water-system",
                system.value(),
                topic(dose.key()),
                "/systems/" + system));
    }

    private static String topic(String key) {
        return "dose-given-against:" + key;
    }

    /**
     * A dose as it was given.
     *
     * @param visit at which it was given, where it was at one
     */
    public record GivenTo(WaterSystemId system, double amount, String unit, Instant at, Optional<UUID> visit) {}

    /** Every dose of a product since {@code since}, of whatever system, newest first. */
    @Transactional(readOnly = true)
    public List<GivenTo> givenOf(String product, Instant since) {
        return jdbc
                .sql("""
                        select water_system_id, product, amount, unit, given_at, visit_id
                        from dose_given
                        where given_at >= :since
                        order by given_at desc, key
                        """)
                .param("since", since.atOffset(ZoneOffset.UTC))
                .query((row, number) -> Map.entry(
                        row.getString("product"),
                        new GivenTo(
                                WaterSystemId.of(row.getObject("water_system_id", UUID.class)),
                                row.getDouble("amount"),
                                row.getString("unit"),
                                row.getObject("given_at", OffsetDateTime.class).toInstant(),
                                Optional.ofNullable(row.getObject("visit_id", UUID.class)))))
                .list()
                .stream()
                .filter(given -> ProductName.same(given.getKey(), product))
                .map(Map.Entry::getValue)
                .toList();
    }

    /** Products that were given and have no limit, neither of their own nor as a salt; the last given first. */
    @Transactional(readOnly = true)
    public List<Unlimited> unlimited() {
        Set<String> limited = rules.all().stream()
                .filter(DoseRuleView::limits)
                .map(rule -> ProductName.key(rule.product()))
                .collect(Collectors.toSet());
        Map<String, List<Place>> places = jdbc
                .sql("""
                        select product, water_system_id, max(given_at) as last
                        from dose_given
                        group by product, water_system_id
                        order by max(given_at) desc, product
                        """)
                .query((row, number) -> new Place(
                        row.getString("product"),
                        row.getObject("water_system_id", UUID.class),
                        row.getObject("last", OffsetDateTime.class).toInstant()))
                .list()
                .stream()
                .filter(place -> NamedSalt.of(place.product()).isEmpty())
                .collect(Collectors.groupingBy(
                        place -> ProductName.key(place.product()), LinkedHashMap::new, Collectors.toList()));
        return places.entrySet().stream()
                .filter(product -> !limited.contains(product.getKey()))
                .map(product -> new Unlimited(
                        product.getValue().getFirst().product(),
                        (int) product.getValue().stream()
                                .map(Place::system)
                                .distinct()
                                .count(),
                        day(product.getValue().getFirst().last())))
                .toList();
    }

    private LocalDate day(Instant at) {
        return LocalDate.ofInstant(at, business.zone());
    }

    private static DoseKind kind(String product, Optional<DoseRuleView> rule) {
        return DoseKind.of(product, rule.map(DoseRuleView::kind)).orElse(DoseKind.OTHER);
    }

    /**
     * What reaches a plate needs a written order, and what nobody knows might be what needs one. The order is in force when
     * the dose is given and also today: what a device says of the time revives none that has ended.
     */
    private void checkEaten(Dose dose, DoseKind kind, boolean known) {
        boolean ordered = Stream.of(dose.at(), clock.instant())
                .map(this::day)
                .allMatch(day ->
                        rules.inForce(dose.system().id(), dose.product(), day).isPresent());
        if (kind.needsOrderWhereEaten() && !ordered) {
            throw new FieldRefusal("product", "plans.dose.eaten", dose.product());
        }
        if (!known && kind == DoseKind.OTHER) {
            throw new FieldRefusal("product", "plans.dose.eaten-unknown", dose.product());
        }
    }

    /** What speaks against copper in this water, whatever the dose. */
    private Optional<FieldRefusal> againstCopper(WaterSystemView system) {
        String animals = systems.livestock(system.id()).stream()
                .filter(LivestockView::isKilledByCopper)
                .map(LivestockView::commonName)
                .collect(Collectors.joining(", "));
        if (system.kind() == SystemKind.REEF || !animals.isEmpty()) {
            return Optional.of(new FieldRefusal("product", "plans.dose.copper-animals", animals));
        }
        if (system.kind().isSalt()) {
            return Optional.empty();
        }
        Optional<Double> alkalinity =
                Optional.ofNullable(basis.believed(system.id()).get(Quantity.ALKALINITY));
        if (alkalinity.isEmpty()) {
            return Optional.of(new FieldRefusal("product", "plans.dose.copper-unknown"));
        }
        return alkalinity
                .filter(known -> known < SOFT_DKH)
                .map(known -> new FieldRefusal("product", "plans.dose.copper-soft", text(known), text(SOFT_DKH)));
    }

    private void checkRule(Dose dose, DoseRuleView rule) {
        if (rule.kind() == DoseKind.CONDITIONER) {
            return;
        }
        Duration apart = Duration.ofHours(rule.leastHours().orElse(0));
        List<Given> near = doses(dose, apart.compareTo(DAY) > 0 ? apart : DAY).stream()
                .filter(given -> ProductName.same(given.product(), dose.product()))
                .toList();
        near.stream().filter(given -> isWithin(given, dose, apart)).findFirst().ifPresent(earlier -> {
            throw new FieldRefusal(
                    "product",
                    "plans.dose.too-soon",
                    dose.product(),
                    apart.toHours(),
                    words().moment(earlier.at(), business.zone()));
        });
        if (rule.mostPerDay().isPresent()) {
            if (!rule.unit().equals(dose.unit())) {
                throw new FieldRefusal("unit", "plans.dose.other-unit", dose.unit(), rule.unit());
            }
            double most = rule.mostPerDay().get() * dose.system().netVolume().litres() / 100;
            double given = near.stream()
                    .filter(earlier ->
                            isWithin(earlier, dose, DAY) && earlier.unit().equals(dose.unit()))
                    .mapToDouble(Given::amount)
                    .sum();
            refuseAbove(dose, most * (1 - besides(dose, rule)) - given, most);
        }
    }

    /** The part of a day that other products have used up, where this one raises alkalinity as they do. */
    private double besides(Dose dose, DoseRuleView rule) {
        if (!DailyRise.raisesPh(dose.product(), Optional.of(rule))
                || NamedSalt.of(dose.product()).isPresent()) {
            return 0;
        }
        List<Given> others = doses(dose, DAY).stream()
                .filter(given -> !ProductName.same(given.product(), dose.product()))
                .toList();
        return held(dose, Quantity.ALKALINITY)
                .map(held -> risen(dose, held, others) / held.perDay())
                .orElse(0.0);
    }

    /** @param left of the day's sum {@code most} before this dose */
    private void refuseAbove(Dose dose, double left, double most) {
        if (dose.amount() > left + most * ROUNDING) {
            throw new FieldRefusal(
                    "amount",
                    "plans.dose.too-much",
                    text(dose.amount()),
                    text(Math.max(0, left)),
                    dose.unit(),
                    words().volume(dose.system().netVolume().litres()));
        }
    }

    /** A salt by its formula: what it changes in a day stays within the safe rate of the system. */
    private void checkSalt(Dose dose, Salt salt) {
        Quantity quantity = Quantity.valueOf(salt.raises().name());
        if (!dose.unit().equals("g")) {
            throw new FieldRefusal("unit", "plans.dose.other-unit", dose.unit(), "g");
        }
        Optional<Salt.Raises> enemy = switch (salt.raises()) {
            case ALKALINITY -> Optional.of(Salt.Raises.CALCIUM);
            case CALCIUM -> Optional.of(Salt.Raises.ALKALINITY);
            case MAGNESIUM -> Optional.empty();
        };
        boolean met = doses(dose, APART).stream()
                .flatMap(given -> NamedSalt.of(given.product()).stream())
                .anyMatch(other -> enemy.filter(other.raises()::equals).isPresent());
        if (met) {
            throw new FieldRefusal("product", "plans.dose.together", dose.product());
        }
        held(dose, quantity).ifPresent(held -> {
            double most = gramsFor(salt, dose.system().netVolume(), held.perDay()) / purity(salt, held);
            refuseAbove(dose, most * (1 - risen(dose, held, doses(dose, DAY)) / held.perDay()), most);
        });
    }

    /** What a quantity of a system is held to in a day, with the product of the plan that is followed. */
    private Optional<DailyRise.Held> held(Dose dose, Quantity quantity) {
        Optional<PlanView> plan = followed(dose, quantity);
        return rates.of(dose.system().id(), quantity)
                .raising()
                .map(perDay -> new DailyRise.Held(
                        dose.system(),
                        quantity,
                        perDay,
                        plan.flatMap(PlanView::salt),
                        plan.map(PlanView::purity).orElse(1.0)));
    }

    private Optional<PlanView> followed(Dose dose, Quantity quantity) {
        return plans.openOn(dose.system().id(), quantity).filter(open -> open.state() == PlanState.RUNNING);
    }

    /** How far other doses and what is added every day raise it already. */
    private double risen(Dose dose, DailyRise.Held held, List<Given> others) {
        double given = others.stream()
                .mapToDouble(other -> rise.of(held, other.product(), other.amount(), other.unit())
                        .orElse(0))
                .sum();
        double besides = followed(dose, held.quantity())
                .map(running -> Math.max(0, running.addedPerDay() - running.usedPerDay()))
                .orElse(0.0);
        return given + besides;
    }

    private static double purity(Salt salt, DailyRise.Held held) {
        return held.product().filter(salt::equals).isPresent() ? held.purity() : 1;
    }

    static double gramsFor(Salt salt, Volume volume, double change) {
        return salt.raises() == Salt.Raises.ALKALINITY
                ? SupplementDose.forAlkalinity(salt, volume, Alkalinity.ofDkh(0), Alkalinity.ofDkh(change), 1)
                        .inGrams()
                : SupplementDose.forMetal(salt, volume, new MassConcentration(0), new MassConcentration(change), 1)
                        .inGrams();
    }

    /** What a product raises that is named as a salt, by its formula or its name; empty for every other product. */
    public static Optional<Quantity> raises(String product) {
        return NamedSalt.of(product).map(NamedSalt::raises);
    }

    private boolean isWithin(Given given, Dose dose, Duration apart) {
        return given.moments().stream()
                .anyMatch(earlier -> moments(dose).stream()
                        .anyMatch(moment ->
                                Duration.between(earlier, moment).abs().compareTo(apart) < 0));
    }

    private List<Instant> moments(Dose dose) {
        return moments(dose.at(), clock.instant());
    }

    private static List<Instant> moments(Instant said, Instant received) {
        return received.isAfter(said.plus(BELIEVED_FOR)) ? List.of(said, received) : List.of(said);
    }

    /**
     * Doses to the same system nearer than that, before or after, but for this line itself and for what tells of the same
     * dose: a tick beside its entry.
     */
    private List<Given> doses(Dose dose, Duration within) {
        return jdbc
                .sql("""
                        select product, amount, unit, given_at, coalesce(received_at, given_at) as received_at,
                            visit_id is not distinct from :visit and agreed <> :agreed and not further and not :further
                                as other_way
                        from dose_given
                        where water_system_id = :system and key <> :key
                            and coalesce(received_at, given_at) > :from
                        order by given_at desc
                        """)
                .param("system", dose.system().id().value())
                .param("key", dose.key())
                .param("visit", dose.visit())
                .param("agreed", dose.agreed())
                .param("further", dose.isFurther())
                .param("from", dose.at().minus(within).atOffset(ZoneOffset.UTC))
                .query((row, number) -> {
                    Instant at = row.getObject("given_at", OffsetDateTime.class).toInstant();
                    return new Given(
                            row.getString("product"),
                            row.getDouble("amount"),
                            row.getString("unit"),
                            at,
                            moments(
                                    at,
                                    row.getObject("received_at", OffsetDateTime.class)
                                            .toInstant()),
                            row.getBoolean("other_way") && ProductName.same(row.getString("product"), dose.product()));
                })
                .list()
                .stream()
                .filter(given -> !given.sameDose() && isWithin(given, dose, within))
                .toList();
    }

    private PlanWords words() {
        return new PlanWords(business.unitSystem(), LocaleContextHolder.getLocale());
    }

    static String text(double value) {
        return new BigDecimal(new BigDecimal(value)
                        .round(new MathContext(3))
                        .stripTrailingZeros()
                        .toPlainString())
                .toPlainString();
    }
}
