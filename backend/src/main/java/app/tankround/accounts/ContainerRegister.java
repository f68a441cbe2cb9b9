package app.tankround.accounts;

import app.tankround.persistence.RecordLock;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.sql.Timestamp;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Pattern;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * The containers for water, each known by the number painted on it. None is ever removed, only put out of use, so that its
 * number is never given again: what held waste or a treatment must not come back as a clean one.
 */
@Service
public class ContainerRegister {

    /** Levels are marked to a tenth of a litre, so nothing smaller can be filled; own choice, no source. */
    public static final double SMALLEST_L = 0.1;

    public static final double LARGEST_L = 1_000;

    public static final double HEAVIEST_EMPTY_KG = 200;

    /** The height of a bench or a rack; own choice, no source. */
    public static final double HIGHEST_STAND_CM = 120;

    private static final int LONGEST_NUMBER = 20;

    /** What is painted on it; a colon would part the keys of load sheets. */
    private static final Pattern NUMBER =
            Pattern.compile("[\\p{L}\\p{N}](?:[\\p{L}\\p{N} ./-]{0," + (LONGEST_NUMBER - 2) + "}[\\p{L}\\p{N}])?");

    private static final Pattern DIGITS = Pattern.compile("\\d+");

    /** What a wash consists of; all four, in this order. Common practice, no source. */
    public enum WashStep {
        RINSED("rinsed"),
        WASHED("washed"),
        RINSED_AGAIN("rinsedAgain"),
        DRIED("dried");

        private final String field;

        WashStep(String field) {
            this.field = field;
        }

        /** The field in which it is ticked. */
        public String field() {
            return field;
        }
    }

    private final WaterContainers containers;
    private final Fleet fleet;
    private final People people;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final JdbcClient jdbc;
    private final Days days;
    private final Clock clock;

    ContainerRegister(
            WaterContainers containers,
            Fleet fleet,
            People people,
            RecordLock lock,
            ChangeLog changes,
            JdbcClient jdbc,
            Days days,
            Clock clock) {
        this.containers = containers;
        this.fleet = fleet;
        this.people = people;
        this.lock = lock;
        this.changes = changes;
        this.jdbc = jdbc;
        this.days = days;
        this.clock = clock;
    }

    /** All of them, out of use or not, by number: 9 before 10. */
    @Transactional(readOnly = true)
    public List<WaterContainerView> all() {
        return containers.findAll().stream()
                .map(WaterContainer::view)
                .sorted(Comparator.comparing((WaterContainerView container) -> sortable(container.number()))
                        .thenComparing(WaterContainerView::number))
                .toList();
    }

    private static String sortable(String number) {
        return DIGITS.matcher(number.toLowerCase(Locale.ROOT))
                .replaceAll(digits -> "0".repeat(LONGEST_NUMBER - digits.group().length()) + digits.group());
    }

    @Transactional(readOnly = true)
    public Optional<WaterContainerView> find(WaterContainerId id) {
        return containers.findById(id).map(WaterContainer::view);
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public WaterContainerView require(WaterContainerId id) {
        return find(id).orElseThrow(() -> new NotFound("water-container", id));
    }

    @Transactional(readOnly = true)
    public Optional<WaterContainerView> findByNumber(String number) {
        return containers.findByNumberIgnoreCase(number).map(WaterContainer::view);
    }

    /** Those in use that a van may load: its own first, then those in the pool of its depot, each by number. */
    @Transactional(readOnly = true)
    public List<WaterContainerView> usableBy(VanView van) {
        return usableBy(van, all());
    }

    /** The same of containers that were asked for already. */
    public static List<WaterContainerView> usableBy(VanView van, List<WaterContainerView> all) {
        List<WaterContainerView> usable = new ArrayList<>();
        all.stream()
                .filter(container -> !container.outOfUse() && container.belongsTo(van))
                .forEach(usable::add);
        all.stream()
                .filter(container -> !container.outOfUse() && container.isInPoolOf(van.depotId()))
                .forEach(usable::add);
        return usable;
    }

    /**
     * Adds the container, or changes the one of that id. Saving the same twice saves it once.
     *
     * @throws FieldRefusal for a missing or taken number, a place that is no van and no depot, a size, mass or height out of
     *     range, waste or treatment that should become clean, and fresh or salt water that asks for a wash first
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void save(WaterContainerView container) {
        refuseIfWrong(container);
        lock.hold("water container " + container.id());
        Optional<WaterContainerView> stored = find(container.id());
        containers
                .findByNumberIgnoreCase(container.number())
                .filter(other -> !other.id().equals(container.id()))
                .ifPresent(other -> {
                    throw new FieldRefusal("number", "accounts.container.number-taken", container.number());
                });
        if (stored.isPresent()) {
            if (stored.get().with(container.version()).equals(container)) {
                return;
            }
            if (stored.get().version() != container.version()) {
                throw new StaleVersion("/vans/containers/" + container.id(), stored.get(), container);
            }
            refuseIfNeverClean(stored.get(), container.role());
            if (stored.get().role().needsWashFor(container.role())) {
                throw new FieldRefusal("role", "accounts.container.wash-first", container.number());
            }
        }
        containers.save(WaterContainer.of(container));
        changes.record(
                "water-container",
                container.id(),
                stored.isPresent() ? "changed" : "added",
                stored.map(before -> ChangedFields.between(before, container))
                        .orElseGet(() -> ChangedFields.of(container)));
    }

    private void refuseIfWrong(WaterContainerView container) {
        if (container.number().isBlank()) {
            throw new FieldRefusal("number", "accounts.container.number-missing");
        }
        if (!NUMBER.matcher(container.number()).matches()) {
            throw new FieldRefusal("number", "accounts.container.number-malformed", container.number(), LONGEST_NUMBER);
        }
        boolean known = container.van().isPresent() != container.depot().isPresent()
                && container.van().map(fleet::find).map(Optional::isPresent).orElse(true)
                && container.depot().map(fleet::find).map(Optional::isPresent).orElse(true);
        if (!known) {
            throw new FieldRefusal("place", "accounts.container.place-unknown");
        }
        inRange("size", "accounts.container.size-range", container.size().litres(), SMALLEST_L, LARGEST_L);
        inRange("empty", "accounts.mass-range", container.empty().kilograms(), 0, HEAVIEST_EMPTY_KG);
        inRange("stands", "accounts.container.stands-range", container.standsCm(), 0, HIGHEST_STAND_CM);
    }

    private static void inRange(String field, String code, double value, double low, double high) {
        if (!(value >= low && value <= high)) {
            throw new FieldRefusal(field, code, value, low, high);
        }
    }

    private static void refuseIfNeverClean(WaterContainerView stored, ContainerRole wanted) {
        if (!stored.role().mayBecome(wanted)) {
            throw new FieldRefusal("role", "accounts.container.never-clean." + stored.role(), stored.number());
        }
    }

    /**
     * Says that a container was washed, and holds the other kind of clean water from now on. The same wash twice counts once.
     *
     * @param id made by whoever asks
     * @param done what was done of it
     * @throws FieldRefusal for a step that is missing, a day that is not there or lies ahead, a person nobody knows, or a container
     *     that holds waste or a treatment
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void wash(
            UUID id, WaterContainerId container, int version, Set<WashStep> done, PersonId person, LocalDate washedOn) {
        lock.hold("water container " + container);
        WaterContainerView stored = require(container);
        if (washes(container).stream().anyMatch(wash -> wash.id().equals(id))) {
            return;
        }
        if (!stored.role().isClean()) {
            throw new FieldRefusal(
                    WashStep.RINSED.field(), "accounts.container.never-clean." + stored.role(), stored.number());
        }
        for (WashStep step : WashStep.values()) {
            if (!done.contains(step)) {
                throw new FieldRefusal(step.field(), "accounts.container.wash.all-steps");
            }
        }
        if (people.find(person).isEmpty()) {
            throw new FieldRefusal("person", "accounts.container.wash.nobody");
        }
        LocalDate today = days.of(clock.instant());
        if (washedOn.isAfter(today)) {
            throw new FieldRefusal("washedOn", "accounts.container.wash.ahead", washedOn, today);
        }
        if (stored.version() != version) {
            throw new StaleVersion("/vans/containers/" + container, stored, null);
        }
        ContainerRole other = stored.role() == ContainerRole.FRESH ? ContainerRole.SALT : ContainerRole.FRESH;
        containers.save(WaterContainer.of(stored).as(other));
        jdbc.sql("""
                        insert into container_wash (id, container_id, from_role, to_role, person_id, washed_on, recorded_at)
                        values (:id, :container, :from, :to, :person, :on, :at)
                        """)
                .param("id", id)
                .param("container", container.value())
                .param("from", stored.role().name())
                .param("to", other.name())
                .param("person", person.value())
                .param("on", washedOn)
                .param("at", Timestamp.from(clock.instant()))
                .update();
        changes.record(
                "water-container",
                container,
                "washed",
                Map.of("number", stored.number(), "from", stored.role().name(), "to", other.name()));
    }

    /** The washes of a container, the last first. */
    @Transactional(readOnly = true)
    public List<ContainerWash> washes(WaterContainerId container) {
        return jdbc.sql("""
                        select id, from_role, to_role, person_id, washed_on
                        from container_wash
                        where container_id = :container
                        order by recorded_at desc, id desc
                        """)
                .param("container", container.value())
                .query((row, number) -> new ContainerWash(
                        row.getObject("id", UUID.class),
                        container,
                        ContainerRole.valueOf(row.getString("from_role")),
                        ContainerRole.valueOf(row.getString("to_role")),
                        PersonId.of(row.getObject("person_id", UUID.class)),
                        row.getObject("washed_on", LocalDate.class)))
                .list();
    }
}
