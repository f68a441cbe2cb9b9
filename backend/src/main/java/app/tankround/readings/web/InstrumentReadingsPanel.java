package app.tankround.readings.web;

import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.InstrumentPanel;
import app.tankround.instruments.InstrumentView;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.DecisionView;
import app.tankround.readings.DoubtListView;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.DoubtfulReading;
import app.tankround.readings.ReadingMarks;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** The readings that rest on an instrument, those in doubt first, on its page. */
@Component
class InstrumentReadingsPanel implements InstrumentPanel {

    private static final int MOST_LINES = 100;

    /** Of those that are trusted the newest say enough here; all stand on the pages of their systems. */
    private static final int MOST_OTHERS = 20;

    private static final Set<VerdictCode> OUTSIDE = EnumSet.of(VerdictCode.ABOVE, VerdictCode.BELOW);

    /**
     * @param target in the same digits throughout, whatever each reading bears
     * @param outside the verdict on the corrected value of a reading that is not trusted, if that lies outside its target
     */
    record Row(
            ReadingLines.Line line,
            WaterSystemView system,
            String target,
            String before,
            String outside,
            List<Done> rests) {}

    /** What two readings have alike if they are held against one target on one scale. */
    private record Limits(
            MeasurementUnit unit,
            Optional<String> gravityReference,
            Optional<BigDecimal> low,
            Optional<BigDecimal> high) {

        static Limits of(ReadingView reading) {
            return new Limits(
                    reading.unit(),
                    reading.gravityReference(),
                    reading.assessment().targetLow(),
                    reading.assessment().targetHigh());
        }
    }

    /** What readings share that are held against one target: its words, and the scale of their marks. */
    private record Alike(Map<Limits, String> targets, Map<Limits, ReadingMarks.Scale> scales) {}

    record Done(String page, String summary) {}

    record Listed(DoubtListView list, String made) {}

    private final ReadingService readings;
    private final DoubtLists lists;
    private final ReadingLines lines;
    private final WaterSystems systems;
    private final VerdictWords words;
    private final MessageSource messages;

    InstrumentReadingsPanel(
            ReadingService readings,
            DoubtLists lists,
            ReadingLines lines,
            WaterSystems systems,
            VerdictWords words,
            MessageSource messages) {
        this.readings = readings;
        this.lists = lists;
        this.lines = lines;
        this.systems = systems;
        this.words = words;
        this.messages = messages;
    }

    @Override
    public int order() {
        return 10;
    }

    @Override
    public String fragment() {
        return "readings/panels :: doubt";
    }

    @Override
    public Map<String, Object> model(InstrumentView instrument) {
        Locale locale = LocaleContextHolder.getLocale();
        ReadingLines.Page page = lines.page(locale);
        List<DoubtfulReading> doubtful = readings.disbelieved(instrument.id(), MOST_LINES);
        List<ReadingView> newest = readings.believed(instrument.id(), MOST_OTHERS + 1);
        List<ReadingView> believed = newest.stream().limit(MOST_OTHERS).toList();
        Map<Limits, String> targets = Stream.concat(doubtful.stream().map(DoubtfulReading::reading), believed.stream())
                .collect(Collectors.toMap(
                        Limits::of,
                        reading -> words.target(reading, locale).orElse(""),
                        (one, other) -> one.length() < other.length() ? other : one));
        Map<Limits, ReadingMarks.Scale> scales = new HashMap<>();
        Stream.concat(doubtful.stream().map(DoubtfulReading::reading), believed.stream())
                .forEach(reading -> ReadingMarks.scale(reading)
                        .ifPresent(scale -> scales.merge(Limits.of(reading), scale, ReadingMarks.Scale::with)));
        Alike alike = new Alike(targets, scales);
        List<Row> doubted =
                doubtful.stream().map(doubt -> row(doubt, alike, page, locale)).toList();
        List<Row> others = believed.stream()
                .map(reading -> row(reading, alike, "", List.of(), page, locale))
                .toList();
        ReadingService.Disbelieved count = readings.countDisbelieved(instrument.id());
        List<Listed> listed = lists.of(instrument.id()).stream()
                .map(list -> new Listed(list, page.when(list.madeAt())))
                .toList();
        return Map.of(
                "doubtful", doubted,
                "others", others,
                "more", newest.size() > MOST_OTHERS,
                "count", count,
                "lists", listed,
                "moved", doubtful.stream().anyMatch(doubt -> isMoved(doubt.reading())),
                "salinity", instrument.quantity() == Quantity.SALINITY);
    }

    /** Whether a correction moved it away from what was read. */
    private static boolean isMoved(ReadingView reading) {
        return reading.assessment().says("READS_LOW_BY") || reading.assessment().says("READS_HIGH_BY");
    }

    private Row row(DoubtfulReading doubt, Alike alike, ReadingLines.Page page, Locale locale) {
        String before = doubt.verdictBefore()
                .map(verdict -> words.word(verdict, locale))
                .orElseGet(() -> messages.getMessage("readings.word.untrusted", null, locale));
        return row(doubt.reading(), alike, before, doubt.decisions(), page, locale);
    }

    private Row row(
            ReadingView reading,
            Alike alike,
            String before,
            List<DecisionView> decisions,
            ReadingLines.Page page,
            Locale locale) {
        AssessmentView assessment = reading.assessment();
        boolean outside = !assessment.trusted() && OUTSIDE.contains(assessment.verdict());
        String as = isMoved(reading) ? "readings.outside." : "readings.outside.as-read.";
        return new Row(
                page.of(reading, alike.scales().get(Limits.of(reading))),
                systems.require(reading.systemId()),
                alike.targets().getOrDefault(Limits.of(reading), ""),
                before,
                outside ? messages.getMessage(as + assessment.verdict(), null, locale) : "",
                decisions.stream()
                        .map(decision -> new Done(decision.page(), summary(decision, locale)))
                        .toList());
    }

    /** In fewer words where the system that it was done to stands beside it. */
    private String summary(DecisionView decision, Locale locale) {
        Object[] args = decision.args().toArray();
        @Nullable String here = messages.getMessage(decision.summaryCode() + ".here", args, null, locale);
        return here == null ? messages.getMessage(decision.summaryCode(), args, locale) : here;
    }
}
