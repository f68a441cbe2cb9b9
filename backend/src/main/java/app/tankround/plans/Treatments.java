package app.tankround.plans;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.persistence.RecordLock;
import app.tankround.plans.Treatment.Copper;
import app.tankround.plans.Treatment.CopperForm;
import app.tankround.plans.Treatment.KitShows;
import app.tankround.plans.Treatment.State;
import app.tankround.plans.Treatment.Thing;
import app.tankround.readings.Answer;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.ReleaseHindrances;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.TextInput;
import java.sql.Types;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Treatments of systems: each dose by net volume and by what is left in the water, nothing in the water that takes the drug
 * out, and everything put back afterwards.
 */
@Service
@Transactional
public class Treatments implements ReleaseHindrances {

    /** What was read longer ago than this tells nothing of what is left: own choice. */
    private static final Duration RESIDUAL_KEEPS = Duration.ofHours(24);

    /** Of a dose: what a syringe may miss by. */
    private static final double ROUNDING = 1.02;

    /** @param value mg/L in the water, where something was read after the last dose, or nothing was given yet */
    public record Residual(Optional<Double> value, Optional<Instant> at) {}

    private final JdbcClient jdbc;
    private final ReadingService readings;
    private final WaterSystems systems;
    private final Followups followups;
    private final BusinessProfile business;
    private final MessageSource messages;
    private final RecordLock lock;
    private final ChangeLog changes;

    Treatments(
            JdbcClient jdbc,
            ReadingService readings,
            WaterSystems systems,
            Followups followups,
            BusinessProfile business,
            MessageSource messages,
            RecordLock lock,
            ChangeLog changes) {
        this.jdbc = jdbc;
        this.readings = readings;
        this.systems = systems;
        this.followups = followups;
        this.business = business;
        this.messages = messages;
        this.lock = lock;
        this.changes = changes;
    }

    /** Those of a system, the newest first. */
    @Transactional(readOnly = true)
    public List<Treatment> bySystem(WaterSystemId system) {
        Map<UUID, Map<Thing, State>> things = jdbc
                .sql("""
                        select g.treatment_id, g.thing, g.state
                        from treatment_thing g
                        join treatment t on t.id = g.treatment_id
                        where t.water_system_id = :system
                        """)
                .param("system", system.value())
                .query((row, number) -> Map.entry(
                        row.getObject("treatment_id", UUID.class),
                        Map.entry(Thing.valueOf(row.getString("thing")), State.valueOf(row.getString("state")))))
                .list()
                .stream()
                .collect(Collectors.groupingBy(
                        Map.Entry::getKey,
                        Collectors.toMap(
                                each -> each.getValue().getKey(),
                                each -> each.getValue().getValue(),
                                (one, other) -> other,
                                () -> new EnumMap<>(Thing.class))));
        return jdbc.sql("select * from treatment where water_system_id = :system order by started_on desc, id")
                .param("system", system.value())
                .query((row, number) -> {
                    UUID id = row.getObject("id", UUID.class);
                    Optional<KitShows> kit =
                            Optional.ofNullable(row.getString("kit_shows")).map(KitShows::valueOf);
                    Optional<CopperForm> form =
                            Optional.ofNullable(row.getString("copper_form")).map(CopperForm::valueOf);
                    return new Treatment(
                            id,
                            system,
                            row.getString("product"),
                            row.getString("ordered_by"),
                            row.getDouble("strength"),
                            row.getString("unit"),
                            row.getDouble("low_mg_l"),
                            row.getDouble("high_mg_l"),
                            form.flatMap(drug -> kit.map(shows -> new Copper(drug, shows))),
                            row.getObject("started_on", LocalDate.class),
                            Optional.ofNullable(row.getObject("ended_on", LocalDate.class)),
                            things.getOrDefault(id, Map.of()),
                            row.getInt("version"));
                })
                .list();
    }

    /** The one that runs in a system with this product. */
    Optional<Treatment> running(WaterSystemId system, String product) {
        return bySystem(system).stream()
                .filter(treatment -> treatment.open() && ProductName.same(treatment.product(), product))
                .findFirst();
    }

    /** All that run, of whatever system. */
    @Transactional(readOnly = true)
    public List<Treatment> open() {
        return jdbc
                .sql("select distinct water_system_id from treatment where ended_on is null order by water_system_id")
                .query((row, number) -> WaterSystemId.of(row.getObject("water_system_id", UUID.class)))
                .list()
                .stream()
                .flatMap(system -> bySystem(system).stream())
                .filter(Treatment::open)
                .toList();
    }

    /** @throws NotFound if there is none in that system */
    @Transactional(readOnly = true)
    public Treatment require(WaterSystemId system, UUID id) {
        return bySystem(system).stream()
                .filter(treatment -> treatment.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new NotFound("treatment", id));
    }

    /**
     * Begins a treatment; the same again changes nothing.
     *
     * @throws FieldRefusal for a missing text, an aim that is none, copper without its form and what the kit shows, a kit that
     *     does not see that form, or where the same is given already
     */
    public void begin(Treatment begun) {
        String product = TextInput.required("product", begun.product(), 200);
        String orderedBy = TextInput.required("orderedBy", begun.orderedBy(), 200);
        ProductName.requireOneAlphabet(product);
        boolean copper = DoseKind.of(product, Optional.empty())
                .filter(DoseKind.COPPER::equals)
                .isPresent();
        if (copper && begun.copper().isEmpty()) {
            throw new FieldRefusal("copperForm", "plans.treatment.copper-form");
        }
        begun.copper().filter(form -> !form.fits()).ifPresent(form -> {
            throw new FieldRefusal("kitShows", "plans.treatment.kit-blind");
        });
        if (begun.low() > begun.high()) {
            throw new FieldRefusal("high", "plans.treatment.aim", begun.high(), begun.low());
        }
        lock.hold("treatments " + begun.systemId());
        systems.require(begun.systemId());
        if (bySystem(begun.systemId()).stream().anyMatch(other -> other.id().equals(begun.id()))) {
            return;
        }
        running(begun.systemId(), product).ifPresent(other -> {
            throw new FieldRefusal("product", "plans.treatment.running", product);
        });
        jdbc.sql("""
                        insert into treatment (
                            id, water_system_id, product, ordered_by, strength, unit, low_mg_l, high_mg_l, copper_form,
                            kit_shows, started_on, version)
                        values (:id, :system, :product, :by, :strength, :unit, :low, :high, :form, :kit, :started, 1)
                        """)
                .param("id", begun.id())
                .param("system", begun.systemId().value())
                .param("product", product)
                .param("by", orderedBy)
                .param("strength", begun.strength())
                .param("unit", begun.unit())
                .param("low", begun.low())
                .param("high", begun.high())
                .param("form", begun.copper().map(each -> each.form().name()).orElse(null), Types.VARCHAR)
                .param("kit", begun.copper().map(each -> each.kit().name()).orElse(null), Types.VARCHAR)
                .param("started", begun.startedOn())
                .update();
        begun.things()
                .keySet()
                .forEach(thing -> jdbc.sql(
                                "insert into treatment_thing (treatment_id, thing, state) values (:id, :thing, 'ON')")
                        .param("id", begun.id())
                        .param("thing", thing.name())
                        .update());
        changes.record("water-system", begun.systemId(), "treatment-begun", Map.of("product", product));
    }

    /** Says that something was taken off, or put back. Once all is back after the end, the matter about it is settled. */
    public void thing(WaterSystemId system, UUID id, Thing thing, State state) {
        lock.hold("treatments " + system);
        int changed = jdbc.sql("update treatment_thing set state = :state where treatment_id = :id and thing = :thing")
                .param("state", state.name())
                .param("id", require(system, id).id())
                .param("thing", thing.name())
                .update();
        if (changed == 0) {
            throw new FieldRefusal("thing", "plans.treatment.thing-unknown", thing);
        }
        tellOfThings(require(system, id));
    }

    /**
     * Ends a treatment; what was taken off is to be put back.
     *
     * @param why it ended
     */
    public void end(WaterSystemId system, UUID id, LocalDate on, String why) {
        String reason = TextInput.inWords("why", TextInput.required("why", why, 500));
        lock.hold("treatments " + system);
        Treatment treatment = require(system, id);
        if (!treatment.open()) {
            return;
        }
        jdbc.sql("update treatment set ended_on = :on, why_ended = :why, version = version + 1 where id = :id")
                .param("on", on)
                .param("why", reason)
                .param("id", id)
                .update();
        changes.record(
                "water-system", system, "treatment-ended", Map.of("product", treatment.product(), "why", reason));
        tellOfThings(require(system, id));
    }

    private void tellOfThings(Treatment treatment) {
        String topic = "treatment-things:" + treatment.id();
        if (treatment.open() || treatment.in(State.OFF).isEmpty()) {
            followups.settleTopic(topic, "plans.treatment.put-back");
            return;
        }
        followups.open(new NewFollowup(
                "plans.followup.put-back",
                List.of(systems.require(treatment.systemId()).name(), treatment.product()),
                Urgency.TODAY,
                "water-system",
                treatment.systemId().value(),
                topic,
                "/systems/" + treatment.systemId()));
    }

    /** What is left in the water of what is given: nothing before the first dose, else what was read after the last. */
    @Transactional(readOnly = true)
    public Residual residual(Treatment treatment, Instant now, String besides) {
        Optional<Instant> last = lastDose(treatment, besides);
        if (treatment.copper().isEmpty()) {
            return new Residual(last.isEmpty() ? Optional.of(0.0) : Optional.empty(), Optional.empty());
        }
        Optional<ReadingView> read =
                readings
                        .series(treatment.systemId(), Quantity.COPPER, now.minus(RESIDUAL_KEEPS), now.plusSeconds(1))
                        .stream()
                        .filter(reading -> reading.answer() != Answer.NOT_MEASURED
                                && reading.value().isPresent())
                        .filter(reading -> last.filter(at -> !reading.takenAt().isAfter(at))
                                .isEmpty())
                        .max(Comparator.comparing(ReadingView::takenAt));
        if (read.isPresent()) {
            double most =
                    read.get().upperValue().orElse(read.get().value().get()).doubleValue();
            return new Residual(Optional.of(most), Optional.of(read.get().takenAt()));
        }
        return new Residual(last.isEmpty() ? Optional.of(0.0) : Optional.empty(), Optional.empty());
    }

    /** When it was last given, as far as this treatment goes back; what the field of that key says left aside. */
    Optional<Instant> lastDose(Treatment treatment, String besides) {
        return jdbc
                .sql(
                        "select product, given_at from dose_given where water_system_id = :system and key <> :key and given_at >= :from")
                .param("system", treatment.systemId().value())
                .param("key", besides)
                .param("from", treatment.startedOn().atStartOfDay().minusDays(1).atOffset(ZoneOffset.UTC))
                .query((row, number) -> Map.entry(
                        row.getString("product"),
                        row.getObject("given_at", OffsetDateTime.class).toInstant()))
                .list()
                .stream()
                .filter(given -> ProductName.same(given.getKey(), treatment.product()))
                .map(Map.Entry::getValue)
                .max(Comparator.naturalOrder());
    }

    /**
     * Looks at a dose of what a treatment gives.
     *
     * @throws FieldRefusal if something still takes it out, nobody read what is left, or it is more than the water stands
     */
    void check(DoseGuard.Dose dose) {
        Optional<Treatment> running = running(dose.system().id(), dose.product());
        if (running.isEmpty()) {
            return;
        }
        Treatment treatment = running.get();
        List<Thing> on = new ArrayList<>(treatment.in(State.ON));
        on.addAll(treatment.in(State.BACK));
        if (!on.isEmpty()) {
            throw new FieldRefusal(
                    "product",
                    "plans.treatment.still-on",
                    on.stream().map(Enum::name).toArray());
        }
        if (!dose.unit().equals(treatment.unit())) {
            throw new FieldRefusal("unit", "plans.dose.other-unit", dose.unit(), treatment.unit());
        }
        Residual residual = residual(treatment, dose.at(), dose.key());
        if (residual.value().isEmpty() && treatment.copper().isPresent()) {
            throw new FieldRefusal("product", "plans.treatment.residual-first", treatment.product());
        }
        double left = residual.value().orElse(0.0);
        double most =
                treatment.dose(treatment.high(), left, dose.system().netVolume().litres());
        if (dose.amount() > most * ROUNDING) {
            throw new FieldRefusal(
                    "amount",
                    "plans.treatment.too-much",
                    DoseGuard.text(dose.amount()),
                    DoseGuard.text(most),
                    treatment.unit(),
                    DoseGuard.text(left),
                    DoseGuard.text(treatment.high()));
        }
    }

    /**
     * What the visit page says of the treatments of a system that run, or left something to be put back.
     *
     * @param known those of the system
     */
    @Transactional(readOnly = true)
    public List<Map<String, Object>> told(List<Treatment> known, WaterSystemView system, Instant now, Locale locale) {
        return known.stream()
                .filter(treatment ->
                        treatment.open() || !treatment.in(State.OFF).isEmpty())
                .map(treatment -> told(treatment, system, now, locale))
                .toList();
    }

    private Map<String, Object> told(Treatment treatment, WaterSystemView system, Instant now, Locale locale) {
        Map<String, Object> told = new LinkedHashMap<>();
        told.put("id", treatment.id().toString());
        told.put("product", treatment.product());
        told.put("lines", treatment.open() ? lines(treatment, system, now, locale) : List.of());
        told.put("ended", treatment.open() ? "" : text("ended", locale));
        told.put("open", treatment.open());
        told.put("name", ProductName.key(treatment.product()));
        told.put("unit", treatment.unit());
        told.put("high", treatment.high());
        told.put("copper", treatment.copper().isPresent());
        told.put("perUnit", treatment.strength() / system.netVolume().litres());
        residual(treatment, now, "").value().ifPresent(left -> told.put("residual", left));
        told.put(
                "things",
                treatment.things().entrySet().stream()
                        .sorted(Map.Entry.comparingByKey())
                        .map(each -> Map.of(
                                "code",
                                each.getKey().name(),
                                "name",
                                messages.getMessage("plans.treatment.thing." + each.getKey(), null, locale),
                                "state",
                                each.getValue().name()))
                        .toList());
        return told;
    }

    private List<String> lines(Treatment treatment, WaterSystemView system, Instant now, Locale locale) {
        double litres = system.netVolume().litres();
        List<String> lines = new ArrayList<>();
        lines.add(text("order", locale, treatment.orderedBy()));
        lines.add(text(
                "target",
                locale,
                DoseGuard.text(treatment.low()),
                DoseGuard.text(treatment.high()),
                new PlanWords(business.unitSystem(), locale).volume(litres)));
        treatment
                .copper()
                .ifPresent(copper -> lines.add(text(
                        "form",
                        locale,
                        messages.getMessage("plans.treatment.form." + copper.form(), null, locale),
                        messages.getMessage("plans.treatment.kit." + copper.kit(), null, locale))));
        Residual residual = residual(treatment, now, "");
        residual.at()
                .ifPresent(at -> lines.add(text(
                        "residual",
                        locale,
                        DoseGuard.text(residual.value().orElse(0.0)),
                        new PlanWords(business.unitSystem(), locale).moment(at, business.zone()))));
        if (residual.value().isEmpty()) {
            lines.add(text("measure", locale));
            return lines;
        }
        double left = residual.value().get();
        double middle = (treatment.low() + treatment.high()) / 2;
        double dose = treatment.dose(middle, left, litres);
        lines.add(
                dose == 0
                        ? text("enough", locale)
                        : text(
                                "dose",
                                locale,
                                DoseGuard.text(dose),
                                treatment.unit(),
                                DoseGuard.text(treatment.dose(treatment.high(), left, litres))));
        return lines;
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage("plans.treatment.at-tank." + code, args, locale);
    }

    @Override
    @Transactional(readOnly = true)
    public List<Hindrance> of(WaterSystemView system) {
        List<Hindrance> found = new ArrayList<>();
        for (Treatment treatment : bySystem(system.id())) {
            if (treatment.open()) {
                found.add(new Hindrance("plans.release.treatment-runs", List.of(treatment.product())));
            } else if (!treatment.in(State.OFF).isEmpty()) {
                found.add(new Hindrance("plans.release.not-put-back", List.of(treatment.product())));
            }
        }
        return found;
    }
}
