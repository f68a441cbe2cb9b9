package app.tankround.health;

import static app.tankround.units.Quantity.AMMONIA;
import static app.tankround.units.Quantity.DISSOLVED_SOLIDS;
import static app.tankround.units.Quantity.NITRITE;
import static app.tankround.units.Quantity.SALINITY;

import app.tankround.chemistry.PurifiedWaterNote;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.SolidsCreep;
import app.tankround.chemistry.VerdictCode;
import app.tankround.chemistry.YoungSystem;
import app.tankround.instruments.SalinityScales;
import app.tankround.purification.Place;
import app.tankround.purification.PlantState.ContainerState;
import app.tankround.tanks.SystemKind;
import app.tankround.units.Salinity;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Which systems need somebody, and in which order. Plain calculation on facts, so that anybody can follow it.
 *
 * <p>The rank, worst first:
 *
 * <ol>
 *   <li>ammonia, nitrite, copper, chlorine, oxygen or temperature beyond the limit that kills, or found where it must not
 *       be;
 *   <li>the newest reading of something in doubt, or taken with an instrument known to be wrong;
 *   <li>dissolved solids in supply water at or above their limit, or creeping up, and a resin that is used up;
 *   <li>salinity outside; where the water stood below its mark, topping up comes before anything else;
 *   <li>ammonia or nitrite in a system younger than ten weeks, then anything else outside its target;
 *   <li>what is due at the plant for purified water;
 *   <li>a brown film that was seen after the weeks in which it passes by itself;
 *   <li>too close to a limit to tell, or not measured, twice running;
 *   <li>no reading for longer than one and a half times the days between visits: a missing reading is not a good one.
 * </ol>
 *
 * <p>Within one rank the one farther outside comes first, measured by the width of its target; then the code decides. A
 * system takes the rank of its worst concern; but of an instrument in doubt, whose readings tell of no danger, one line
 * says that it is, and not each of the systems that were read with it. An outside verdict counts whether or not its instrument is trusted, unless
 * the reading is in doubt, which has a rank of its own.
 *
 * <p>What is expected of a young system says {@link YoungSystem}: a brown film that is seen later than that, or comes back, is
 * raised, with the advice to look at silicate in the source water.
 */
public final class HealthRule {

    /** Days between visits to assume where nothing is agreed: common practice, no source. */
    static final int USUAL_RHYTHM_DAYS = 14;

    private static final double LONGEST_SILENCE = 1.5;

    private static final double SECONDS_PER_DAY = 86_400;

    private static final int CREEP_MOST_POINTS = 12;
    private static final Duration CREEP_WINDOW = Duration.ofDays(180);

    private static final Comparator<Concern> WORST_FIRST = Comparator.comparing(Concern::kind)
            .thenComparing(Comparator.comparingDouble(Concern::weight).reversed());

    /** The order of the ranking; systems without a concern come last, before them those of which only an instrument is in doubt. */
    static final Comparator<SystemHealth> RANKING = Comparator.comparing(
                    SystemHealth::own, Comparator.comparing(own -> own.isEmpty() ? 1 : 0))
            .thenComparing((one, other) -> one.own().isEmpty() || other.own().isEmpty()
                    ? 0
                    : WORST_FIRST.compare(one.own().get(), other.own().get()))
            .thenComparing(health -> health.worst().isEmpty())
            .thenComparing(health -> health.facts().code());

    private final SystemFacts facts;
    private final LocalDate today;
    private final ZoneId zone;

    private HealthRule(SystemFacts facts, LocalDate today, ZoneId zone) {
        this.facts = facts;
        this.today = today;
        this.zone = zone;
    }

    /** Judges one system. */
    public static SystemHealth judge(SystemFacts facts, LocalDate today, ZoneId zone) {
        return new HealthRule(facts, today, zone).judge();
    }

    /** Judges all and ranks them, the worst first. */
    public static List<SystemHealth> rank(List<SystemFacts> all, LocalDate today, ZoneId zone) {
        return all.stream()
                .map(facts -> judge(facts, today, zone))
                .sorted(RANKING)
                .toList();
    }

    private SystemHealth judge() {
        List<Concern> concerns = new ArrayList<>();
        boolean open = false;
        for (List<SeriesPoint> series : facts.series()) {
            Optional<Concern> concern = ofSeries(series);
            concern.ifPresent(concerns::add);
            open |= concern.isEmpty() && !isKnown(series.getLast());
        }
        facts.purified().map(SystemFacts.Purified::notes).orElse(List.of()).stream()
                .flatMap(note -> ofPlant(note).stream())
                .forEach(concerns::add);
        lastingFilm().ifPresent(concerns::add);
        silence().ifPresent(concerns::add);
        concerns.sort(WORST_FIRST);
        Optional<Long> filmWeek = facts.week(today)
                .filter(week -> facts.kind() != SystemKind.SUPPLY
                        && YoungSystem.Course.BROWN_FILM.in(week) == YoungSystem.Stage.USUAL);
        return new SystemHealth(facts, concerns, open, filmWeek);
    }

    private static boolean isKnown(SeriesPoint point) {
        return point.trusted() && point.verdict() != VerdictCode.UNDECIDED;
    }

    private Optional<Concern> ofSeries(List<SeriesPoint> series) {
        SeriesPoint last = series.getLast();
        if (last.doubtful() || last.knownWrong()) {
            ConcernCode code = last.doubtful() ? ConcernCode.IN_DOUBT : ConcernCode.KNOWN_WRONG;
            return concern(ConcernKind.IN_DOUBT, code, series, List.of(), errorInWidths(last));
        }
        if (last.quantity() == DISSOLVED_SOLIDS && facts.kind() == SystemKind.SUPPLY) {
            return supplySolids(series, last);
        }
        if (last.outside() || last.found()) {
            return outside(series, last);
        }
        return cannotTell(series);
    }

    private Optional<Concern> outside(List<SeriesPoint> series, SeriesPoint last) {
        double weight = excess(last);
        ConcernCode side = last.verdict() == VerdictCode.BELOW ? ConcernCode.BELOW : ConcernCode.ABOVE;
        boolean fromNitrogenCycle = last.quantity() == AMMONIA || last.quantity() == NITRITE;
        if (fromNitrogenCycle && facts.week(today).isPresent()) {
            long week = facts.week(today).get();
            return YoungSystem.isRipe(week)
                    ? concern(ConcernKind.DANGER, ConcernCode.FOUND_LATE, series, List.of(week), weight)
                    : concern(ConcernKind.SETTLING, ConcernCode.FOUND_EARLY, series, List.of(week), weight);
        }
        if (last.endangers()) {
            return concern(ConcernKind.DANGER, last.found() ? ConcernCode.FOUND : side, series, List.of(), weight);
        }
        if (last.quantity() == SALINITY) {
            return salinity(series, last, side, weight);
        }
        return concern(ConcernKind.OUTSIDE, side, series, List.of(), weight);
    }

    /** Water that is missing from the sump was pure water: what is left reads higher by that share. */
    private Optional<Concern> salinity(List<SeriesPoint> series, SeriesPoint last, ConcernCode side, double weight) {
        Optional<SystemFacts.WaterLevel> low = facts.waterLevel().filter(level -> !level.atMark());
        if (side == ConcernCode.BELOW || low.isEmpty()) {
            return concern(ConcernKind.SALINITY, side, series, List.of(), weight);
        }
        List<Long> share = low.get()
                .missingLitres()
                .map(litres -> litres / facts.netVolumeLitres())
                .filter(missing -> missing > 0 && missing < 1 && isExplained(last, missing))
                .map(missing -> List.of(Math.round(missing * 1000)))
                .orElse(List.of());
        return concern(ConcernKind.SALINITY, ConcernCode.ABOVE_LOW_WATER, series, share, weight);
    }

    /** Whether the salinity would lie at or below its upper limit with the water at its mark. */
    private static boolean isExplained(SeriesPoint last, double missingShare) {
        SalinityScale scale = SalinityScales.of(last.unit(), last.gravityReference());
        double highest = scale.readingIn(Salinity.ofPractical(scale.highestSalinity()));
        Optional<Double> limit = last.targetHigh()
                .map(high -> scale.toSalinity(Math.min(high, highest)).value());
        return last.salinity()
                .flatMap(read -> limit.map(high -> read * (1 - missingShare) <= high))
                .orElse(false);
    }

    /** What a plant needs; what is worth a look only when somebody stands before it is no concern. */
    private static Optional<Concern> ofPlant(PurifiedWaterNote note) {
        return switch (note.code()) {
            case CHLORINE_PASSES, CHLORAMINE_PASSES -> concern(ConcernKind.DANGER, note, 0);
            case RESIN_PASSES, RESIN_SPENT -> concern(ConcernKind.DISSOLVED_SOLIDS, note, 0);
            case CHLORINE_TEST_DUE, LITRES_UNKNOWN, CHLORINE_NEVER_TESTED -> concern(ConcernKind.PLANT_DUE, note, 1);
            case RESIN_ENDS,
                    PREFILTER_CLOGGED,
                    PREFILTER_OLD,
                    CARBON_OLD,
                    FLOW_DOWN,
                    FLOW_UP,
                    REJECTION_LOW,
                    PERMEATE_WORSE_THAN_FEED -> concern(ConcernKind.PLANT_DUE, note, 0);
            case PRESSURE_UNKNOWN, CHLORAMINE_UNKNOWN -> Optional.empty();
        };
    }

    private static Optional<Concern> concern(ConcernKind kind, PurifiedWaterNote note, double weight) {
        return Optional.of(new Concern(
                kind,
                ConcernCode.PLANT,
                Optional.empty(),
                List.of(),
                List.of(),
                weight,
                Optional.of(note),
                Optional.empty()));
    }

    /** Where somebody said how the plant is built, water within it is judged by its own limits and containers by their cause. */
    private Optional<Concern> supplySolids(List<SeriesPoint> series, SeriesPoint last) {
        Optional<Place> place = facts.purified()
                .flatMap(plant -> last.samplePoint()
                        .flatMap(name -> Optional.ofNullable(plant.places().get(name))))
                .filter(known -> known != Place.CONTAINER);
        if (place.isPresent()) {
            boolean saidByTheResin = place.get() == Place.AFTER_RESIN;
            boolean outside = last.outside() || last.found();
            return outside && !saidByTheResin ? outside(series, last) : Optional.empty();
        }
        Optional<ContainerState> container = facts.purified()
                .flatMap(plant -> Optional.ofNullable(plant.containers().get(last.samplePoint())));
        return container.isPresent() ? container(container.get(), series, last) : solids(series);
    }

    private Optional<Concern> container(ContainerState container, List<SeriesPoint> series, SeriesPoint last) {
        LocalDate read = LocalDate.ofInstant(last.takenAt(), zone);
        if (container.washedOn().filter(day -> !read.isAfter(day)).isPresent()) {
            return Optional.empty();
        }
        double weight = excess(last) + (isOver(last) ? 1 : 0);
        return container
                .creep()
                .filter(creep -> creep.found().cause() != SolidsCreep.Cause.AIR)
                .map(creep -> new Concern(
                        ConcernKind.DISSOLVED_SOLIDS,
                        ConcernCode.SOLIDS_CREEP,
                        Optional.of(last.quantity()),
                        List.of(creep.days()),
                        series.subList(Math.max(0, series.size() - CREEP_MOST_POINTS), series.size()),
                        weight,
                        Optional.empty(),
                        Optional.of(creep)))
                .or(() -> isOver(last)
                        ? concern(ConcernKind.DISSOLVED_SOLIDS, ConcernCode.SOLIDS_OVER, series, List.of(), weight)
                        : cannotTell(series));
    }

    private static boolean isOver(SeriesPoint last) {
        double now = last.drawn().orElse(0.0);
        return last.verdict() == VerdictCode.ABOVE
                || last.measured()
                        && last.targetHigh().filter(limit -> now >= limit).isPresent();
    }

    private Optional<Concern> solids(List<SeriesPoint> series) {
        SeriesPoint last = series.getLast();
        boolean over = isOver(last);
        List<SeriesPoint> measured =
                series.stream().filter(SeriesPoint::measured).toList();
        List<SeriesPoint> recent = measured.stream()
                .filter(point -> !point.takenAt().isBefore(last.takenAt().minus(CREEP_WINDOW)))
                .toList();
        List<SeriesPoint> window = recent.subList(Math.max(0, recent.size() - CREEP_MOST_POINTS), recent.size());
        if (last.measured() && creeps(window)) {
            long days = Duration.between(window.getFirst().takenAt(), last.takenAt())
                    .toDays();
            return concern(
                    ConcernKind.DISSOLVED_SOLIDS,
                    ConcernCode.SOLIDS_CREEP,
                    window,
                    List.of(days),
                    excess(last) + (over ? 1 : 0));
        }
        if (over) {
            return concern(ConcernKind.DISSOLVED_SOLIDS, ConcernCode.SOLIDS_OVER, series, List.of(), excess(last) + 1);
        }
        return cannotTell(series);
    }

    private static boolean creeps(List<SeriesPoint> window) {
        return SolidsCreep.rises(window.stream()
                .map(point -> new SolidsCreep.Point(
                        point.takenAt().getEpochSecond() / SECONDS_PER_DAY,
                        point.drawn().orElse(0.0)))
                .toList());
    }

    private static Optional<Concern> cannotTell(List<SeriesPoint> series) {
        if (series.size() < 2) {
            return Optional.empty();
        }
        List<SeriesPoint> two = series.subList(series.size() - 2, series.size());
        if (!two.stream().allMatch(point -> point.verdict() == VerdictCode.UNDECIDED)) {
            return Optional.empty();
        }
        boolean never = two.stream().noneMatch(SeriesPoint::measured);
        return concern(
                ConcernKind.CANNOT_TELL,
                never ? ConcernCode.NOT_MEASURED_TWICE : ConcernCode.UNDECIDED_TWICE,
                series,
                List.of(),
                RangeVerdict.kills(series.getLast().quantity()) ? 1 : 0);
    }

    /** A film that outlasts the first weeks, or comes back: the water that goes in may carry silicate. */
    private Optional<Concern> lastingFilm() {
        Optional<LocalDate> seen = facts.filmSeenOn();
        if (seen.isEmpty() || facts.kind() == SystemKind.SUPPLY) {
            return Optional.empty();
        }
        Optional<Long> week = seen.flatMap(facts::week);
        if (week.filter(number -> number <= YoungSystem.Course.BROWN_FILM.latest())
                .isPresent()) {
            return Optional.empty();
        }
        ConcernCode code = week.isPresent() ? ConcernCode.FILM_LASTS : ConcernCode.FILM_BACK;
        return Optional.of(new Concern(
                ConcernKind.LASTING_FILM, code, Optional.empty(), week.stream().toList(), List.of(), 0));
    }

    private Optional<Concern> silence() {
        Optional<LocalDate> last = facts.series().stream()
                .flatMap(List::stream)
                .filter(SeriesPoint::measured)
                .map(SeriesPoint::takenAt)
                .max(Comparator.naturalOrder())
                .map(instant -> LocalDate.ofInstant(instant, zone));
        long longest = (long) Math.floor(LONGEST_SILENCE * facts.rhythmDays());
        Optional<Long> silent =
                last.or(facts::careSince).or(facts::startedOn).map(day -> ChronoUnit.DAYS.between(day, today));
        if (silent.isPresent() && silent.get() <= longest) {
            return Optional.empty();
        }
        double weight = silent.map(days -> (double) days / facts.rhythmDays()).orElse(Double.MAX_VALUE);
        ConcernCode code = last.isPresent() ? ConcernCode.NO_READING : ConcernCode.NEVER_READ;
        List<Long> numbers = last.isPresent() ? List.of(silent.orElse(0L), (long) facts.rhythmDays()) : List.of();
        return Optional.of(new Concern(ConcernKind.NO_READING, code, Optional.empty(), numbers, List.of(), weight));
    }

    private static Optional<Concern> concern(
            ConcernKind kind, ConcernCode code, List<SeriesPoint> series, List<Long> numbers, double weight) {
        return Optional.of(new Concern(kind, code, Optional.of(series.getLast().quantity()), numbers, series, weight));
    }

    /** How far beyond the nearer limit, in widths of the target; of a one-sided target the limit itself is the width. */
    private static double excess(SeriesPoint point) {
        double now = point.corrected().or(point::value).orElse(0.0);
        double beyond = Math.max(
                point.targetHigh().map(high -> now - high).orElse(0.0),
                point.targetLow().map(low -> low - now).orElse(0.0));
        return Math.max(0, beyond) / width(point);
    }

    private static double errorInWidths(SeriesPoint point) {
        return point.value()
                .flatMap(read -> point.corrected().map(real -> Math.abs(real - read) / width(point)))
                .orElse(0.0);
    }

    private static double width(SeriesPoint point) {
        double low = point.targetLow().orElse(0.0);
        double width = point.targetHigh().map(high -> high - low).orElse(low);
        return width > 0 ? width : 1;
    }
}
