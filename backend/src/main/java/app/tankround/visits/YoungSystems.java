package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Days;
import app.tankround.chemistry.Stocking;
import app.tankround.chemistry.YoungSystem;
import app.tankround.chemistry.YoungSystem.Course;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.readings.Answer;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.StockingHolds;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What is expected of a system by its age, and whether animals may go in yet. */
@Service
public class YoungSystems implements StockingHolds {

    /** Whether something in the tank makes ammonia, as somebody answered at a visit. */
    static final String SOURCE = "visit.ammonia-source";

    /** Nothing seen by a kit that only sees more than this proves nothing, mg/L: own choice. */
    private static final BigDecimal COARSEST_DETECTION = new BigDecimal("0.25");

    /** What was found longer ago says nothing of today: own choice. */
    private static final int LOOKED_BACK_DAYS = 120;

    private static final int WEEK = 7;

    private enum Source {
        FED,
        DOSED,
        NONE
    }

    /**
     * A system by its age.
     *
     * @param week of its life; empty where nobody wrote down when it began
     * @param sourceSaid the last answer about a source of ammonia; empty before anybody answered
     */
    public record Young(Optional<Long> week, Stocking.Answer stocking, Optional<String> sourceSaid) {

        /** Whether its age tells anything. */
        public boolean isYoung() {
            return week.filter(YoungSystem::isYoung).isPresent();
        }
    }

    private final VisitRows rows;
    private final ReadingService readings;
    private final WaterSystems systems;
    private final Followups followups;
    private final BusinessProfile business;
    private final Days days;
    private final MessageSource messages;

    YoungSystems(
            VisitRows rows,
            ReadingService readings,
            WaterSystems systems,
            Followups followups,
            BusinessProfile business,
            Days days,
            MessageSource messages) {
        this.rows = rows;
        this.readings = readings;
        this.systems = systems;
        this.followups = followups;
        this.business = business;
        this.days = days;
        this.messages = messages;
    }

    /** {@code visit.ammonia-source}: whether something in the tank makes ammonia, since without it the tests prove nothing. */
    static Written source(EntryContext context) {
        WaterSystemView system = SystemOfVisit.require(context);
        Facts facts = new Facts()
                .put("source", context.body().choice("source", Source.class).name());
        return Written.only("ammonia-source/" + system.id(), Optional.of(system.id()), facts.node());
    }

    @Transactional(readOnly = true)
    public Young of(WaterSystemView system, LocalDate today) {
        Optional<Long> week = week(system, today);
        ZoneId zone = business.zone();
        Instant from = today.minusDays(LOOKED_BACK_DAYS).atStartOfDay(zone).toInstant();
        Instant until = today.plusDays(1).atStartOfDay(zone).toInstant();
        List<Stocking.Test> tests = Stream.of(Quantity.AMMONIA, Quantity.NITRITE)
                .flatMap(quantity -> readings.series(system.id(), quantity, from, until).stream())
                .filter(reading -> reading.answer() != Answer.NOT_MEASURED)
                .map(reading -> test(reading, zone))
                .toList();
        Optional<String> source = rows.ofSystem(system.id(), List.of(SOURCE), from).stream()
                .findFirst()
                .map(entry -> entry.facts().path("source").asString(""));
        List<LivestockView> animals = systems.livestock(system.id());
        int there = animals.stream().mapToInt(LivestockView::quantity).sum();
        int lately = animals.stream()
                .filter(each -> each.addedOn()
                        .filter(day -> day.isAfter(today.minusDays(WEEK)))
                        .isPresent())
                .mapToInt(LivestockView::quantity)
                .sum();
        boolean fed = source.filter(said -> !said.equals(Source.NONE.name())).isPresent();
        return new Young(week, Stocking.judge(week, tests, fed, there, lately), source);
    }

    private static Optional<Long> week(WaterSystemView system, LocalDate today) {
        return system.startedOn()
                .filter(day -> system.kind() != SystemKind.SUPPLY)
                .map(day -> ChronoUnit.DAYS.between(day, today))
                .filter(days -> days >= 0)
                .map(days -> days / WEEK + 1);
    }

    private static Stocking.Test test(ReadingView reading, ZoneId zone) {
        long day = LocalDate.ofInstant(reading.takenAt(), zone).toEpochDay();
        return new Stocking.Test(day, reading.quantity() == Quantity.NITRITE, finding(reading));
    }

    private static Stocking.Finding finding(ReadingView reading) {
        BigDecimal value = reading.value().orElse(BigDecimal.ZERO);
        boolean nothingSeen =
                reading.answer() == Answer.BELOW_DETECTION || reading.answer() == Answer.VALUE && value.signum() == 0;
        if (!nothingSeen) {
            return Stocking.Finding.FOUND;
        }
        boolean believed = reading.assessment().decides() && value.compareTo(COARSEST_DETECTION) <= 0;
        return believed ? Stocking.Finding.BELOW_DETECTION : Stocking.Finding.CANNOT_TELL;
    }

    @Override
    @Transactional
    public void require(WaterSystemView system, int count, LocalDate on, Optional<String> because, String page) {
        Stocking.Answer answer = of(system, on).stocking();
        if (!answer.speaksAgainst(count)) {
            return;
        }
        Locale locale = LocaleContextHolder.getLocale();
        if (because.isEmpty()) {
            throw new FieldRefusal("because", code(answer), system.name(), number(answer, locale));
        }
        followups.open(new NewFollowup(
                "visits.followup.stocking",
                List.of(system.name(), Integer.toString(count), because.get()),
                answer.code() == Stocking.Code.FOUND ? Urgency.NOW : Urgency.TODAY,
                "water-system",
                system.id().value(),
                "stocking-against:" + system.id() + "/" + on,
                page));
    }

    private static String code(Stocking.Answer answer) {
        return "visits.stocking." + answer.code();
    }

    private static String number(Stocking.Answer answer, Locale locale) {
        return switch (answer.code()) {
            case FOUND, ONCE -> Days.day(LocalDate.ofEpochDay(answer.number()), locale);
            case FREE, FEW, NOT_TESTED, NO_SOURCE -> Long.toString(answer.number());
        };
    }

    /**
     * What a page says of a system by its age, as JSON-friendly values; empty where there is nothing to say.
     *
     * @param today the day that is spoken of
     */
    @Transactional(readOnly = true)
    public Map<String, Object> told(WaterSystemView system, LocalDate today, Locale locale) {
        Young young = of(system, today);
        if (system.kind() == SystemKind.SUPPLY
                || !young.isYoung() && !young.stocking().held()) {
            return Map.of();
        }
        Map<String, Object> told = new LinkedHashMap<>();
        told.put("held", young.stocking().held());
        told.put("code", young.stocking().code().name());
        told.put("most", young.stocking().number());
        told.put("stocking", text(code(young.stocking()), locale, system.name(), number(young.stocking(), locale)));
        young.week().filter(YoungSystem::isYoung).ifPresent(week -> {
            told.put("week", week);
            told.put("title", text("visits.young.week", locale, week));
            told.put(
                    "expected",
                    Arrays.stream(Course.values())
                            .map(course -> expected(course, week, locale))
                            .toList());
            told.put("film", film(week, locale));
            told.put("ripe", YoungSystem.isRipe(week));
            told.put("alarm", text("visits.young.alarm", locale, week));
            told.put("early", text("visits.young.early", locale, week));
        });
        return told;
    }

    private Map<String, String> expected(Course course, long week, Locale locale) {
        YoungSystem.Stage stage = course.in(week);
        String spread = course.stays() ? ".stays" : "";
        return Map.of(
                "course", course.name(),
                "stage", stage.name(),
                "name", text("visits.young.course." + course, locale),
                "words", text("visits.young.stage." + stage, locale),
                "spread",
                        text(
                                "visits.young.spread" + spread,
                                locale,
                                course.usualFrom(),
                                course.usualUntil(),
                                course.earliest(),
                                course.latest()));
    }

    private String film(long week, Locale locale) {
        return text("visits.young.film." + Course.BROWN_FILM.in(week), locale, week);
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }

    /** The day and the answer of a person, wherever it is shown. */
    Optional<String> sourceWords(WaterSystemId system, LocalDate today, Locale locale) {
        Instant from =
                today.minusDays(LOOKED_BACK_DAYS).atStartOfDay(business.zone()).toInstant();
        return rows.ofSystem(system, List.of(SOURCE), from).stream()
                .findFirst()
                .map(entry -> text(
                        "visits.young.source." + entry.facts().path("source").asString(""),
                        locale,
                        days.day(entry.at(), locale)));
    }
}
