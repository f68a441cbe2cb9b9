package app.tankround.loads;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.DepotView;
import app.tankround.accounts.Fleet;
import app.tankround.loads.WaterAccount.Figure;
import app.tankround.loads.WaterAccount.Line;
import app.tankround.loads.WaterAccount.Source;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.stock.KeptWaterEnd;
import app.tankround.stock.VatFlow;
import app.tankround.stock.VatFlows;
import app.tankround.stock.VatRole;
import app.tankround.stock.WaterBatches;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Accounts for every litre of a depot's water: what was there and was made is what was used, poured away or is there still,
 * or it is a difference, and somebody is asked. Nothing of it is stored but what people say of differences. A round counts on
 * its day with what its closed sheet says went out and what visits say they used; all else when it was written down.
 */
@Service
public class WaterAccounts {

    /** The longest time that is told at once, in days. */
    public static final int MOST_DAYS = 31;

    private static final int LONGEST_REASON = 300;
    private static final double ROUNDING_L = 1e-6;

    /** Nobody reads vats and drums finer than that; own choices, no source. */
    private static final double NOT_ASKED_L = 1;

    private static final double NOT_ASKED_PART = 0.02;

    /** A return is told within days; rounds of which it is not are named that long. */
    private static final int STILL_OUT_DAYS = 3;

    /** What was said of a difference holds as long as it stays within that. */
    private static final double SAME_L = 0.5;

    private final VatFlows flows;
    private final LoadReturns returns;
    private final LoadClosings closings;
    private final RoundService rounds;
    private final Fleet fleet;
    private final BusinessProfile business;
    private final CurrentPerson currentPerson;
    private final JdbcClient jdbc;
    private final Clock clock;

    WaterAccounts(
            VatFlows flows,
            LoadReturns returns,
            LoadClosings closings,
            RoundService rounds,
            Fleet fleet,
            BusinessProfile business,
            CurrentPerson currentPerson,
            JdbcClient jdbc,
            Clock clock) {
        this.flows = flows;
        this.returns = returns;
        this.closings = closings;
        this.rounds = rounds;
        this.fleet = fleet;
        this.business = business;
        this.currentPerson = currentPerson;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /**
     * @param until the first day after them
     * @throws NotFound if there is no such depot
     * @throws FieldRefusal at {@code days} for less than one day or more than {@value #MOST_DAYS}
     */
    @Transactional(readOnly = true)
    public WaterAccount of(DepotId depotId, LocalDate from, LocalDate until) {
        if (!from.isBefore(until) || from.plusDays(MOST_DAYS).isBefore(until)) {
            throw new FieldRefusal("days", "loads.account.days", MOST_DAYS);
        }
        DepotView depot = fleet.find(depotId).orElseThrow(() -> new NotFound("depot", depotId));
        return new Work(depot, from, until).account();
    }

    /** Whether a difference is more than nobody measures, and nobody has said why yet. */
    public static boolean asks(WaterAccount.OfKind kind) {
        double difference = kind.difference();
        return Math.abs(difference) > Math.max(NOT_ASKED_L, NOT_ASKED_PART * kind.moved())
                && kind.said()
                        .filter(said -> Math.abs(said.litres() - difference) <= SAME_L)
                        .isEmpty();
    }

    /**
     * Says why there is a difference. The same again changes nothing.
     *
     * @throws FieldRefusal at {@code reason} without one in words, or if there is no difference to explain
     */
    @Transactional
    public void say(UUID id, DepotId depot, LocalDate from, LocalDate until, boolean salted, @Nullable String reason) {
        String why = TextInput.inWords("reason", TextInput.required("reason", reason, LONGEST_REASON));
        double difference = of(depot, from, until).kinds().stream()
                .filter(kind -> kind.salted() == salted)
                .mapToDouble(WaterAccount.OfKind::difference)
                .sum();
        if (Math.abs(difference) <= ROUNDING_L) {
            throw new FieldRefusal("reason", "loads.account.no-difference");
        }
        jdbc.sql("""
                        insert into water_difference (
                            id, depot_id, from_day, until_day, salted, litres, reason, person_id, said_at)
                        values (:id, :depot, :from, :until, :salted, :litres, :reason, :person, :at)
                        on conflict (id) do nothing
                        """)
                .param("id", id)
                .param("depot", depot.value())
                .param("from", from)
                .param("until", until)
                .param("salted", salted)
                .param("litres", difference)
                .param("reason", why)
                .param("person", currentPerson.require().id().value())
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .update();
    }

    private Optional<WaterAccount.Said> said(DepotId depot, LocalDate from, LocalDate until, boolean salted) {
        return jdbc.sql("""
                        select d.litres, d.reason, d.said_at, p.name as person
                        from water_difference d
                        join person p on p.id = d.person_id
                        where d.depot_id = :depot and d.from_day = :from and d.until_day = :until and d.salted = :salted
                        order by d.said_at desc, d.id desc
                        limit 1
                        """)
                .param("depot", depot.value())
                .param("from", from)
                .param("until", until)
                .param("salted", salted)
                .query((row, number) -> new WaterAccount.Said(
                        row.getDouble("litres"),
                        row.getString("reason"),
                        row.getString("person"),
                        row.getObject("said_at", OffsetDateTime.class).toInstant()))
                .optional();
    }

    /** What becomes of each figure of one kind. */
    private static final class Lines {

        private final Map<Figure, List<Source>> sources = new EnumMap<>(Figure.class);

        void add(Figure figure, String words, double litres, Instant at, String page) {
            if (Math.abs(litres) > ROUNDING_L) {
                sources.computeIfAbsent(figure, none -> new ArrayList<>()).add(new Source(words, litres, at, page));
            }
        }

        List<Line> all() {
            return sources.entrySet().stream()
                    .map(each -> new Line(
                            each.getKey(),
                            each.getValue().stream().mapToDouble(Source::litres).sum(),
                            each.getValue().stream()
                                    .sorted(Comparator.comparing(Source::at).thenComparing(Source::words))
                                    .toList()))
                    .toList();
        }
    }

    /** One account. */
    private final class Work {

        private final DepotView depot;
        private final LocalDate from;
        private final LocalDate until;
        private final ZoneId zone = business.zone();
        private final Instant begins;
        private final Instant ends;
        private final Map<Boolean, Lines> kinds = new TreeMap<>(Map.of(false, new Lines(), true, new Lines()));
        private final Map<Boolean, Map<LocalDate, double[]>> drums =
                Map.of(false, new TreeMap<>(), true, new TreeMap<>());
        private final List<Source> unclosed = new ArrayList<>();

        /** In the numbers of a day of drums. */
        private static final int FILLED = 0;

        private static final int LOADED = 1;

        Work(DepotView depot, LocalDate from, LocalDate until) {
            this.depot = depot;
            this.from = from;
            this.until = until;
            begins = at(from);
            ends = at(until);
        }

        private Instant at(LocalDate day) {
            return day.atStartOfDay(zone).toInstant();
        }

        private LocalDate day(Instant instant) {
            return LocalDate.ofInstant(instant, zone);
        }

        private Lines lines(boolean salted) {
            return Objects.requireNonNull(kinds.get(salted));
        }

        /** Water stands in drums no longer than it keeps; what was filled or out before that has been told long since. */
        private LocalDate earliest() {
            return from.minusDays(WaterBatches.KEEPS.toDays());
        }

        WaterAccount account() {
            vats();
            kept();
            rounds();
            inDrums();
            return new WaterAccount(
                    depot,
                    from,
                    until,
                    kinds.entrySet().stream()
                            .map(each -> new WaterAccount.OfKind(
                                    each.getKey(), each.getValue().all(), said(depot.id(), from, until, each.getKey())))
                            .toList(),
                    unclosed);
        }

        private void drums(boolean salted, LocalDate day, int which, double litres) {
            if (!day.isBefore(earliest()) && day.isBefore(until)) {
                Objects.requireNonNull(drums.get(salted)).computeIfAbsent(day, none -> new double[2])[which] += litres;
            }
        }

        private void vats() {
            for (VatFlows.OfVat vat : flows.at(depot.id(), begins, ends)) {
                boolean salted = vat.role() == VatRole.MIXING;
                Lines lines = lines(salted);
                String page = "/water-plan/level?vat=" + vat.vat().id();
                lines.add(Figure.VATS_BEFORE, vat.vat().name(), vat.start(), begins, page);
                lines.add(Figure.VATS_AFTER, vat.vat().name(), vat.end(), ends, page);
                vat.flows().forEach(flow -> flow(lines, salted, flow));
            }
            for (VatFlows.OfVat vat : flows.at(depot.id(), at(earliest()), begins)) {
                vat.flows().stream()
                        .filter(flow -> flow.kind() == VatFlow.Kind.DRUMS)
                        .forEach(flow -> drums(vat.role() == VatRole.MIXING, day(flow.at()), FILLED, -flow.litres()));
            }
        }

        private void flow(Lines lines, boolean salted, VatFlow flow) {
            String name = flow.name();
            switch (flow.kind()) {
                case RUN, BATCH, OPENING -> lines.add(Figure.MADE, name, flow.litres(), flow.at(), flow.page());
                case BACK -> lines.add(Figure.BACK, name, flow.litres(), flow.at(), flow.page());
                case AWAY -> lines.add(Figure.AWAY, name, -flow.litres(), flow.at(), flow.page());
                case SEEN -> lines.add(Figure.UNSEEN, name, -flow.litres(), flow.at(), flow.page());
                case DRUMS -> {
                    lines.add(Figure.FILLED, name, -flow.litres(), flow.at(), flow.page());
                    drums(salted, day(flow.at()), FILLED, -flow.litres());
                }
                case BETWEEN -> {
                    boolean otherSalted =
                            flow.other().map(role -> role == VatRole.MIXING).orElse(salted);
                    if (salted != otherSalted) {
                        lines.add(
                                salted ? Figure.MADE : Figure.MIXED,
                                name,
                                salted ? flow.litres() : -flow.litres(),
                                flow.at(),
                                flow.page());
                    }
                }
            }
        }

        private void kept() {
            Map<UUID, VatFlows.Kept> all = new LinkedHashMap<>();
            Map<UUID, Double> leftBefore = new HashMap<>();
            Map<UUID, Double> leftAfter = new HashMap<>();
            for (VatFlows.Kept part : flows.kept(depot.id(), ends)) {
                Lines lines = lines(part.salted());
                double litres = part.what().isEmpty() ? part.litres() : -part.litres();
                String words = day(part.at()).toString();
                all.putIfAbsent(part.id(), part);
                leftAfter.merge(part.id(), litres, Double::sum);
                if (part.at().isBefore(begins)) {
                    leftBefore.merge(part.id(), litres, Double::sum);
                } else if (part.what().isEmpty()) {
                    lines.add(Figure.BACK, words, part.litres(), part.at(), part.page());
                } else if (part.what().get() == KeptWaterEnd.AWAY) {
                    lines.add(Figure.AWAY, words, part.litres(), part.at(), part.page());
                }
                if (part.what().filter(KeptWaterEnd.LOADED::equals).isPresent()) {
                    drums(part.salted(), day(part.at()), FILLED, part.litres());
                }
            }
            all.forEach((id, part) -> {
                Lines lines = lines(part.salted());
                String words = day(part.at()).toString();
                lines.add(Figure.KEPT_BEFORE, words, leftBefore.getOrDefault(id, 0.0), part.at(), part.page());
                lines.add(Figure.KEPT_AFTER, words, leftAfter.getOrDefault(id, 0.0), part.at(), part.page());
            });
        }

        private void rounds() {
            Set<UUID> toldNow = new HashSet<>(jdbc.sql(
                            "select distinct round_id from load_return where returned_at >= :from and returned_at < :until")
                    .param("from", begins.atOffset(ZoneOffset.UTC))
                    .param("until", ends.atOffset(ZoneOffset.UTC))
                    .query(UUID.class)
                    .list());
            for (RoundView round : rounds.between(earliest(), until)) {
                if (!round.van().depotId().equals(depot.id())) {
                    continue;
                }
                Optional<LoadClosing> closing = closings.of(round.id());
                closing.ifPresent(closed -> loaded(round, closed));
                if (closing.isEmpty()
                        && !round.date().isBefore(from)
                        && !round.stops().isEmpty()) {
                    unclosed.add(new Source(round.code(), 0, at(round.date()), "/rounds/" + round.id() + "/load"));
                }
                // What has been out for longer, and still is, changes nothing.
                boolean matters = !round.date().isBefore(from.minusDays(STILL_OUT_DAYS))
                        || toldNow.contains(round.id().value());
                if (closing.isPresent() && matters) {
                    round(round, closing.get());
                }
            }
        }

        private void loaded(RoundView round, LoadClosing closing) {
            for (LoadClosing.Line line : closing.lines()) {
                LineKey key = LineKey.of(line.key());
                if (key.isWater()) {
                    drums(
                            key.salinity().isPresent(),
                            round.date(),
                            LOADED,
                            line.litres().map(BigDecimal::doubleValue).orElse(0.0));
                }
            }
        }

        private void round(RoundView round, LoadClosing closing) {
            ReturnSheet sheet = returns.of(round.id());
            boolean before = round.date().isBefore(from);
            String page = "/rounds/" + round.id() + "/load/return";
            Instant leaves = round.date().atTime(round.leavesAt()).atZone(zone).toInstant();
            for (ReturnSheet.Thing thing : sheet.things()) {
                if (!thing.isWater()) {
                    continue;
                }
                boolean salted = thing.salinity().isPresent();
                Lines lines = lines(salted);
                double loaded = thing.loaded().doubleValue();
                double used = thing.used().doubleValue();
                if (before) {
                    lines.add(
                            Figure.OUT_BEFORE, round.code(), loaded - used - told(sheet, thing, begins), leaves, page);
                } else {
                    double taken = thing.key().equals(LoadRules.RO_DI_KEY) ? loaded - ofDepot(closing) : 0;
                    lines.add(Figure.TAKEN, round.code(), taken, leaves, page);
                    lines.add(Figure.LOADED, round.code(), loaded - taken, leaves, "/rounds/" + round.id() + "/load");
                    thing.uses()
                            .forEach(use -> lines.add(
                                    Figure.USED,
                                    use.siteName() + ", " + use.systemName(),
                                    use.amount().doubleValue(),
                                    leaves,
                                    page));
                }
                lines.add(Figure.OUT_AFTER, round.code(), loaded - used - told(sheet, thing, ends), leaves, page);
                told(lines, sheet, thing, page);
            }
        }

        /** Purified water that left the depot and is shared; the rest was filled in on the way. */
        private static double ofDepot(LoadClosing closing) {
            return closing.lines().stream()
                    .filter(line ->
                            LineKey.of(line.key()).kind().equals(LoadRules.RO_DI_KEY) && !LineKey.isApart(line.key()))
                    .flatMap(line -> line.litres().stream())
                    .mapToDouble(BigDecimal::doubleValue)
                    .sum();
        }

        /** What returns before an instant told of a thing, with what was missing then. */
        private static double told(ReturnSheet sheet, ReturnSheet.Thing thing, Instant before) {
            return sheet.told().stream()
                    .filter(told -> told.at().isBefore(before))
                    .flatMap(told -> told.lines().stream())
                    .filter(line -> line.key().equals(thing.key()))
                    .map(line -> line.back()
                            .add(line.stays())
                            .add(line.wasted())
                            .add(line.broken())
                            .add(line.missing()))
                    .mapToDouble(BigDecimal::doubleValue)
                    .sum();
        }

        /** Of returns in these days. */
        private void told(Lines lines, ReturnSheet sheet, ReturnSheet.Thing thing, String page) {
            for (ReturnSheet.Told told : sheet.told()) {
                if (told.at().isBefore(begins) || !told.at().isBefore(ends)) {
                    continue;
                }
                told.lines().stream()
                        .filter(line -> line.key().equals(thing.key()))
                        .forEach(line -> {
                            boolean poured = line.goes()
                                    .filter(goes -> goes.what().equals(ReturnedWater.AWAY))
                                    .isPresent();
                            double away = line.wasted().add(line.broken()).doubleValue()
                                    + (poured ? line.back().doubleValue() : 0);
                            lines.add(Figure.AWAY, sheet.round().code(), away, told.at(), page);
                            lines.add(
                                    Figure.UNTOLD,
                                    sheet.round().code(),
                                    line.missing().doubleValue(),
                                    told.at(),
                                    page);
                        });
            }
        }

        /** Day by day, what was filled and not loaded yet; loaded beyond that, nobody filled. */
        private void inDrums() {
            drums.forEach((salted, byDay) -> {
                double standing = 0;
                double before = 0;
                Lines lines = lines(salted);
                for (Map.Entry<LocalDate, double[]> each : byDay.entrySet()) {
                    double next = standing + each.getValue()[FILLED] - each.getValue()[LOADED];
                    standing = Math.max(0, next);
                    if (each.getKey().isBefore(from)) {
                        before = standing;
                    } else if (next < 0) {
                        lines.add(
                                Figure.UNFILLED, each.getKey().toString(), next, at(each.getKey()), "/water-plan/move");
                    }
                }
                lines.add(Figure.DRUMS_BEFORE, from.toString(), before, begins, "/water-plan/move");
                lines.add(Figure.DRUMS_AFTER, until.minusDays(1).toString(), standing, ends, "/water-plan/move");
            });
        }
    }
}
