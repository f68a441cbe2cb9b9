package app.tankround.tanks;

import app.tankround.accounts.ChangeLog;
import app.tankround.persistence.RecordLock;
import app.tankround.tanks.ReleaseHindrances.Hindrance;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.sql.Types;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The clock of a quarantine, what happens in the display meanwhile, and its end. */
@Service
@Transactional
public class QuarantineService {

    private static final int LONGEST_DAYS = 365;
    private static final Pattern KIND = Pattern.compile("\\p{L}[\\p{L} -]{1,58}");

    /**
     * Days for a kind of animals.
     *
     * @param kind word of their names, such as seahorse
     * @param days 1 to 365
     */
    public record Period(UUID id, String kind, int days, String why, int version) {}

    /**
     * The system that the animals came from or go to.
     *
     * @param fallowSince first day on which it held no fish; empty where it is not left fallow
     * @param fallowUntil first day on which fish may go back in
     */
    public record Display(WaterSystemView system, Optional<LocalDate> fallowSince, Optional<LocalDate> fallowUntil) {

        /** Whether it must stay without fish still. */
        public boolean isFallow(LocalDate today) {
            return fallowUntil.filter(today::isBefore).isPresent();
        }

        /** Whole weeks that it has been without fish. */
        public long weeksGone(LocalDate today) {
            return fallowSince
                    .map(since -> Math.max(0, ChronoUnit.DAYS.between(since, today)) / 7)
                    .orElse(0L);
        }

        /** Weeks that it stays without fish in all, begun ones counted whole. */
        public long weeks() {
            return fallowSince
                    .flatMap(since -> fallowUntil.map(until -> (ChronoUnit.DAYS.between(since, until) + 6) / 7))
                    .orElse(0L);
        }
    }

    /**
     * Where a quarantine stands.
     *
     * @param day 1 on the day it began, or began anew because an animal was added
     * @param over the first day on which it may end
     */
    public record State(WaterSystemView system, long day, int days, LocalDate over, Optional<Display> display) {

        public boolean complete() {
            return day > days;
        }
    }

    private final Quarantine quarantine;
    private final WaterSystems systems;
    private final ObjectProvider<ReleaseHindrances> hindrances;
    private final RecordLock lock;
    private final ChangeLog changeLog;
    private final JdbcClient jdbc;

    QuarantineService(
            Quarantine quarantine,
            WaterSystems systems,
            ObjectProvider<ReleaseHindrances> hindrances,
            RecordLock lock,
            ChangeLog changeLog,
            JdbcClient jdbc) {
        this.quarantine = quarantine;
        this.systems = systems;
        this.hindrances = hindrances;
        this.lock = lock;
        this.changeLog = changeLog;
        this.jdbc = jdbc;
    }

    /** Where the quarantine of a system stands on a day; empty if it is in none. */
    @Transactional(readOnly = true)
    public Optional<State> of(WaterSystemView system, LocalDate today) {
        if (system.infectionClass() != InfectionClass.QUARANTINE) {
            return Optional.empty();
        }
        int days = quarantine.days(system.id());
        return Optional.of(new State(
                system,
                system.dayInClass(today),
                days,
                Quarantine.over(system.classSince(), days),
                display(system.id())));
    }

    /** Every quarantine, the one that is over first in front. */
    @Transactional(readOnly = true)
    public List<State> all(LocalDate today) {
        return systems.all().stream()
                .filter(WaterSystemView::active)
                .flatMap(system -> of(system, today).stream())
                .sorted((one, other) -> one.over().compareTo(other.over()))
                .toList();
    }

    /** What speaks against ending it, besides its days. */
    @Transactional(readOnly = true)
    public List<Hindrance> hindrances(WaterSystemView system) {
        List<Hindrance> found = new ArrayList<>();
        display(system.id())
                .filter(display -> display.isFallow(systems.today()))
                .ifPresent(display -> found.add(new Hindrance(
                        "tanks.quarantine.fallow",
                        List.of(
                                display.system().name(),
                                display.fallowUntil().orElseThrow().toString()))));
        hindrances.forEach(each -> found.addAll(each.of(system)));
        return found;
    }

    /**
     * Ends a quarantine: the system is healthy from today on. For whoever may; the checks are those agreed.
     *
     * @param done what was looked at and is well
     * @param note what the person says about it
     * @throws FieldRefusal where its days are not over, a check is missing, or something speaks against it
     * @throws StaleVersion if somebody else changed the system meanwhile
     */
    public void release(WaterSystemId id, int version, Collection<ReleaseCheck> done, @Nullable String note) {
        lock.hold("water-system " + id);
        LocalDate today = systems.today();
        WaterSystemView system = systems.require(id);
        State state = of(system, today).orElseThrow(() -> new FieldRefusal("", "tanks.quarantine.none", system.name()));
        if (!state.complete()) {
            throw new FieldRefusal("", "tanks.quarantine.days-left", state.day(), state.days());
        }
        hindrances(system).stream().findFirst().ifPresent(first -> {
            throw new FieldRefusal("", first.code(), first.args().toArray());
        });
        Set<ReleaseCheck> missing = EnumSet.allOf(ReleaseCheck.class);
        missing.removeAll(done);
        if (!missing.isEmpty()) {
            throw new FieldRefusal("checks", "tanks.quarantine.checks-missing", missing.size());
        }
        String said = TextInput.lines("note", note, 1000);
        systems.endQuarantine(id, version, today, said);
        jdbc.sql("delete from quarantine_display where water_system_id = :id")
                .param("id", id.value())
                .update();
    }

    // The display meanwhile

    @Transactional(readOnly = true)
    public Optional<Display> display(WaterSystemId quarantined) {
        return jdbc.sql(
                        "select display_id, fallow_since, fallow_days from quarantine_display where water_system_id = :id")
                .param("id", quarantined.value())
                .query((row, number) -> {
                    Optional<LocalDate> since = Optional.ofNullable(row.getObject("fallow_since", LocalDate.class));
                    int days = row.getInt("fallow_days");
                    return new Display(
                            systems.require(WaterSystemId.of(row.getObject("display_id", UUID.class))),
                            since,
                            since.map(day -> day.plusDays(days)));
                })
                .optional();
    }

    /** The quarantines whose animals came from a display, or go there. */
    @Transactional(readOnly = true)
    public List<WaterSystemView> quarantinesOf(WaterSystemId display) {
        return jdbc
                .sql("select water_system_id from quarantine_display where display_id = :id order by water_system_id")
                .param("id", display.value())
                .query((row, number) -> WaterSystemId.of(row.getObject("water_system_id", UUID.class)))
                .list()
                .stream()
                .map(systems::require)
                .toList();
    }

    /**
     * Says what happens in the display meanwhile.
     *
     * @param display empty where the animals came from nowhere that is looked after
     * @param fallowSince first day without fish; empty where it keeps its fish
     * @param fallowDays how long, 1 to 365, exactly where it begins: by the parasite, as the veterinarian says
     * @throws FieldRefusal for a system that it cannot be, or one of the two without the other
     */
    public void stateDisplay(
            WaterSystemId quarantined,
            Optional<WaterSystemId> display,
            Optional<LocalDate> fallowSince,
            Optional<Integer> fallowDays) {
        lock.hold("water-system " + quarantined);
        systems.require(quarantined);
        if (display.isEmpty()) {
            jdbc.sql("delete from quarantine_display where water_system_id = :id")
                    .param("id", quarantined.value())
                    .update();
            changeLog.record("water-system", quarantined, "display-stated", Map.of());
            return;
        }
        if (display.get().equals(quarantined) || systems.find(display.get()).isEmpty()) {
            throw new FieldRefusal("display", "tanks.quarantine.display-unknown", display.get());
        }
        if (fallowSince.isPresent() != fallowDays.isPresent()) {
            throw new FieldRefusal(
                    fallowSince.isPresent() ? "fallowDays" : "fallowSince", "tanks.quarantine.fallow-half");
        }
        fallowDays.filter(days -> days < 1 || days > LONGEST_DAYS).ifPresent(days -> {
            throw new FieldRefusal("fallowDays", "web.number-out-of-range", days, 1, LONGEST_DAYS);
        });
        jdbc.sql("""
                        insert into quarantine_display (water_system_id, display_id, fallow_since, fallow_days)
                        values (:id, :display, :since, :days)
                        on conflict (water_system_id) do update
                        set display_id = excluded.display_id, fallow_since = excluded.fallow_since,
                            fallow_days = excluded.fallow_days
                        """)
                .param("id", quarantined.value())
                .param("display", display.get().value())
                .param("since", fallowSince.orElse(null), Types.DATE)
                .param("days", fallowDays.orElse(null), Types.INTEGER)
                .update();
        changeLog.record(
                "water-system",
                quarantined,
                "display-stated",
                Map.of(
                        "display",
                        display.get().toString(),
                        "fallowSince",
                        fallowSince.map(LocalDate::toString).orElse(""),
                        "fallowDays",
                        fallowDays.map(String::valueOf).orElse("")));
    }

    // Days by kind

    /** The days of kinds that have their own, by kind. */
    @Transactional(readOnly = true)
    public List<Period> periods() {
        return jdbc.sql("select id, kind, days, why, version from quarantine_period order by kind")
                .query((row, number) -> new Period(
                        row.getObject("id", UUID.class),
                        row.getString("kind"),
                        row.getInt("days"),
                        row.getString("why"),
                        row.getInt("version")))
                .list();
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public Period requirePeriod(UUID id) {
        return periods().stream()
                .filter(period -> period.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new NotFound("quarantine-period", id));
    }

    /**
     * Adds days for a kind, or changes those of that id; the same again changes nothing.
     *
     * @throws FieldRefusal for a kind that is no word or has days already, or a number out of range
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    public void save(Period period) {
        String kind = TextInput.required("kind", period.kind(), 60).toLowerCase(Locale.ROOT);
        if (!KIND.matcher(kind).matches()) {
            throw new FieldRefusal("kind", "tanks.quarantine.kind-words", period.kind());
        }
        String why = TextInput.required("why", period.why(), 500);
        if (period.days() < 1 || period.days() > LONGEST_DAYS) {
            throw new FieldRefusal("days", "web.number-out-of-range", period.days(), 1, LONGEST_DAYS);
        }
        lock.hold("quarantine-periods");
        List<Period> all = periods();
        all.stream()
                .filter(other -> other.kind().equals(kind) && !other.id().equals(period.id()))
                .findFirst()
                .ifPresent(other -> {
                    throw new FieldRefusal("kind", "tanks.quarantine.kind-taken", kind, other.days());
                });
        Optional<Period> stored =
                all.stream().filter(other -> other.id().equals(period.id())).findFirst();
        Period wanted = new Period(
                period.id(),
                kind,
                period.days(),
                why,
                stored.map(Period::version).orElse(period.version()));
        if (stored.filter(wanted::equals).isPresent()) {
            return;
        }
        if (stored.filter(now -> now.version() != period.version()).isPresent()) {
            throw new StaleVersion("/quarantine-periods/" + period.id() + "/edit", stored.get(), period);
        }
        jdbc.sql("""
                        insert into quarantine_period (id, kind, days, why, version)
                        values (:id, :kind, :days, :why, 1)
                        on conflict (id) do update
                        set kind = excluded.kind, days = excluded.days, why = excluded.why,
                            version = quarantine_period.version + 1
                        """)
                .param("id", period.id())
                .param("kind", kind)
                .param("days", period.days())
                .param("why", why)
                .update();
        changeLog.record(
                "quarantine-period",
                period.id(),
                stored.isPresent() ? "changed" : "added",
                Map.of("kind", kind, "days", period.days()));
    }
}
