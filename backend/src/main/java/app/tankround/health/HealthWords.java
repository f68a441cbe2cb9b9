package app.tankround.health;

import app.tankround.followups.Urgency;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.InstrumentView;
import app.tankround.purification.PurifiedWaterWords;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.tanks.SystemKind;
import java.math.BigDecimal;
import java.text.NumberFormat;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Turns concerns into the sentences and drawings of the pages. */
@Component
public class HealthWords {

    private final MessageSource messages;
    private final VerdictWords verdicts;
    private final ReadingService readings;
    private final HealthReview review;
    private final PurifiedWaterWords purified;
    private final InstrumentRegister instruments;

    HealthWords(
            MessageSource messages,
            VerdictWords verdicts,
            ReadingService readings,
            HealthReview review,
            PurifiedWaterWords purified,
            InstrumentRegister instruments) {
        this.messages = messages;
        this.verdicts = verdicts;
        this.readings = readings;
        this.review = review;
        this.purified = purified;
        this.instruments = instruments;
    }

    /**
     * A system that needs somebody, ready to be shown.
     *
     * @param title the system and where it is
     * @param sentence its worst concern
     * @param facts what else is worth knowing, a sentence each
     * @param drawing the readings it rests on; null where there is none
     * @param href where its readings are, or the plant that makes its water
     * @param hrefWord what that link is called
     */
    public record Line(
            int rank,
            String title,
            Urgency urgency,
            String urgencyWord,
            String sentence,
            List<String> facts,
            @Nullable Drawn drawing,
            String href,
            String hrefWord) {

        public Line {
            facts = List.copyOf(facts);
        }
    }

    /**
     * A drawing with its words.
     *
     * @param label what it shows, for those who cannot see it
     * @param limits labels of the limits, in the order of the drawing's own
     */
    public record Drawn(Object series, String label, String now, List<String> limits, String from, String until) {

        public Drawn {
            limits = List.copyOf(limits);
        }
    }

    /**
     * An instrument in doubt, ready to be shown.
     *
     * @param kills whether nobody knows how some water is with what kills
     * @param named its code and name
     * @param sentence how many systems were last read with it
     */
    public record DoubtedLine(InstrumentId instrument, boolean kills, String named, String sentence) {}

    /** Instruments that newest readings were taken with and that are not believed. */
    public List<DoubtedLine> doubted(List<HealthReview.InstrumentDoubt> doubts, Locale locale) {
        return doubts.stream()
                .map(doubt -> {
                    InstrumentView instrument = instruments.require(doubt.instrument());
                    String quantities = doubt.quantities().stream()
                            .map(quantity -> verdicts.quantity(quantity, locale))
                            .collect(Collectors.joining(", "));
                    return new DoubtedLine(
                            doubt.instrument(),
                            doubt.kills(),
                            instrument.code() + " " + instrument.name(),
                            text("health.doubted.systems", locale, doubt.systems(), quantities));
                })
                .toList();
    }

    /** The lines of ranked systems, numbered from {@code first}. */
    public List<Line> lines(List<SystemHealth> needed, int first, Locale locale) {
        List<Line> lines = new ArrayList<>();
        for (SystemHealth health : needed) {
            lines.add(line(first + lines.size(), health, locale));
        }
        return List.copyOf(lines);
    }

    private Line line(int rank, SystemHealth health, Locale locale) {
        Concern worst = health.own().or(health::worst).orElseThrow();
        Optional<ReadingView> reading = worst.last().flatMap(point -> readings.find(point.id()));
        Urgency urgency = urgency(worst);
        return new Line(
                rank,
                title(health.facts(), locale),
                urgency,
                text("health.urgency." + urgency.name(), locale),
                sentence(worst, reading, locale),
                facts(health, worst, reading, locale),
                reading.flatMap(view -> drawing(worst, view, locale)).orElse(null),
                health.facts()
                        .purified()
                        .map(SystemFacts.Purified::page)
                        .orElse("/systems/" + health.facts().id() + "/readings"),
                text(health.facts().purified().isPresent() ? "health.plant" : "health.readings", locale));
    }

    /** The system, its client and its site, each said once. */
    public String title(SystemFacts facts, Locale locale) {
        String where = facts.clientName().equals(facts.siteName())
                ? facts.siteName()
                : facts.clientName() + ", " + facts.siteName();
        return facts.kind() == SystemKind.SUPPLY
                ? text("health.title.supply", locale, facts.name(), where)
                : text("health.title", locale, facts.name(), where);
    }

    static Urgency urgency(Concern concern) {
        if (concern.endangers()) {
            return Urgency.DEADLY;
        }
        return switch (concern.kind()) {
            case DANGER, IN_DOUBT -> Urgency.NOW;
            case DISSOLVED_SOLIDS, SALINITY -> Urgency.TODAY;
            case SETTLING, OUTSIDE, PLANT_DUE, LASTING_FILM, CANNOT_TELL, NO_READING -> Urgency.SOON;
        };
    }

    private String sentence(Concern concern, Optional<ReadingView> reading, Locale locale) {
        String quantity = concern.quantity()
                .map(measured -> verdicts.quantity(measured, locale))
                .orElse("");
        String samplePoint = concern.last()
                .flatMap(SeriesPoint::samplePoint)
                .map(point -> text("health.at-point", locale, point))
                .orElse("");
        String value = reading.map(view -> value(view, locale)).orElse("");
        String target = reading.flatMap(view -> verdicts.target(view, locale)).orElse("");
        return switch (concern.code()) {
            case IN_DOUBT, KNOWN_WRONG ->
                say(
                        concern,
                        locale,
                        quantity,
                        reading.map(view -> verdicts.asWritten(view, locale)).orElse(""));
            case ABOVE_LOW_WATER ->
                concern.numbers().isEmpty()
                        ? text("health.concern.ABOVE_LOW_WATER.unknown", locale, quantity, value, target)
                        : say(
                                concern,
                                locale,
                                quantity,
                                value,
                                target,
                                percent(concern.numbers().getFirst(), locale));
            case PLANT ->
                concern.note().map(note -> purified.sentence(note, locale)).orElse("");
            case SOLIDS_CREEP ->
                concern.creep()
                        .map(creep -> text(
                                "health.concern.SOLIDS_CREEP.cause",
                                locale,
                                quantity + samplePoint,
                                number(creep.from(), locale),
                                value,
                                creep.days(),
                                purified.cause(creep, locale)))
                        .orElseGet(() -> say(
                                concern,
                                locale,
                                quantity + samplePoint,
                                number(concern.series().getFirst().drawn().orElse(0.0), locale),
                                value,
                                concern.numbers().getFirst()));
            case FOUND_EARLY, FOUND_LATE ->
                say(concern, locale, quantity, value, concern.numbers().getFirst());
            case FILM_LASTS -> say(concern, locale, concern.numbers().getFirst());
            case FILM_BACK -> say(concern, locale);
            case NO_READING ->
                say(
                        concern,
                        locale,
                        concern.numbers().getFirst(),
                        concern.numbers().getLast());
            case ABOVE, BELOW, FOUND, SOLIDS_OVER, UNDECIDED_TWICE, NOT_MEASURED_TWICE, NEVER_READ ->
                say(concern, locale, quantity + samplePoint, value, target);
        };
    }

    private String say(Concern concern, Locale locale, Object... args) {
        return text("health.concern." + concern.code().name(), locale, args);
    }

    /** As written, and where the checks of the instrument move it, what it really is. */
    private String value(ReadingView view, Locale locale) {
        boolean moved =
                view.assessment().says("READS_LOW_BY") || view.assessment().says("READS_HIGH_BY");
        return moved
                ? verdicts.correctedValue(view, locale).orElseGet(() -> verdicts.asWritten(view, locale))
                : verdicts.asWritten(view, locale);
    }

    private List<String> facts(SystemHealth health, Concern worst, Optional<ReadingView> reading, Locale locale) {
        List<String> facts = new ArrayList<>();
        boolean explained = worst.kind() == ConcernKind.IN_DOUBT
                || reading.filter(view -> !view.assessment().trusted()).isPresent();
        if (explained) {
            reading.ifPresent(view -> facts.add(verdicts.sentence(view, locale)));
        }
        worst.last()
                .map(SeriesPoint::takenAt)
                .ifPresent(at -> facts.add(text("health.read-on", locale, day(at, locale))));
        health.facts()
                .nextVisit()
                .map(day -> text("health.next-visit", locale, day(day, locale)))
                .or(() -> Optional.of(text("health.no-next-visit", locale)))
                .filter(words -> health.facts().kind() != SystemKind.SUPPLY)
                .ifPresent(facts::add);
        if (health.concerns().size() > 1) {
            String others = health.concerns().stream()
                    .filter(other -> other != worst)
                    .map(other -> brief(other, locale))
                    .distinct()
                    .collect(Collectors.joining(", "));
            facts.add(text("health.also", locale, others));
        }
        return facts;
    }

    private String brief(Concern concern, Locale locale) {
        String quantity = concern.quantity()
                .map(measured -> verdicts.quantity(measured, locale))
                .orElse("");
        return concern.note()
                .map(note -> text("purification.brief." + note.code().name(), locale))
                .orElseGet(() -> text("health.brief." + concern.code().name(), locale, quantity));
    }

    private Optional<Drawn> drawing(Concern concern, ReadingView view, Locale locale) {
        return SmallSeries.of(concern.series()).map(series -> {
            List<SeriesPoint> shown = concern.series().stream()
                    .filter(point -> point.drawn().isPresent())
                    .toList();
            String quantity = verdicts.quantity(view.quantity(), locale);
            String values = shown.stream()
                    .map(point -> number(point.drawn().orElseThrow(), locale))
                    .collect(Collectors.joining("; "));
            return new Drawn(
                    series,
                    text("health.series", locale, quantity, values),
                    number(shown.getLast().drawn().orElseThrow(), locale),
                    series.limits().stream()
                            .map(limit -> limit(limit.value(), view, locale))
                            .toList(),
                    day(shown.getFirst().takenAt(), locale),
                    day(shown.getLast().takenAt(), locale));
        });
    }

    private static String limit(double value, ReadingView view, Locale locale) {
        return VerdictWords.withScale(number(value, locale), view.unit(), view.gravityReference());
    }

    private static String percent(long tenths, Locale locale) {
        return number(tenths / 10.0, locale);
    }

    private static String number(double value, Locale locale) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setGroupingUsed(false);
        format.setMaximumFractionDigits(4);
        return format.format(BigDecimal.valueOf(value));
    }

    private String day(Instant at, Locale locale) {
        ZoneId zone = review.zone();
        return day(LocalDate.ofInstant(at, zone), locale);
    }

    /** A day without its year, such as 19 Nov. */
    public static String day(LocalDate day, Locale locale) {
        return DateTimeFormatter.ofLocalizedPattern("MMMd").withLocale(locale).format(day);
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }
}
