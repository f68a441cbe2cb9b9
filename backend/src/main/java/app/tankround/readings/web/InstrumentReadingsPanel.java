package app.tankround.readings.web;

import app.tankround.instruments.InstrumentPanel;
import app.tankround.instruments.InstrumentView;
import app.tankround.readings.DecisionView;
import app.tankround.readings.DoubtListView;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.DoubtfulReading;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** The readings that rest on an instrument, those in doubt first, on its page. */
@Component
class InstrumentReadingsPanel implements InstrumentPanel {

    private static final int MOST_LINES = 100;

    record Row(ReadingLines.Line line, WaterSystemView system, String before, List<Done> rests) {}

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
        List<DoubtfulReading> doubtful = readings.doubtful(instrument.id(), MOST_LINES);
        List<Row> doubted =
                doubtful.stream().map(doubt -> row(doubt, page, locale)).toList();
        List<Row> others = readings.believed(instrument.id(), MOST_LINES).stream()
                .map(reading -> row(reading, "", List.of(), page, locale))
                .toList();
        long touched = doubted.stream().map(row -> row.system().id()).distinct().count();
        List<Listed> listed = lists.of(instrument.id()).stream()
                .map(list -> new Listed(list, page.when(list.madeAt())))
                .toList();
        return Map.of("doubtful", doubted, "others", others, "systems", touched, "lists", listed);
    }

    private Row row(DoubtfulReading doubt, ReadingLines.Page page, Locale locale) {
        String before = doubt.verdictBefore()
                .map(verdict -> words.word(verdict, locale))
                .orElse("");
        return row(doubt.reading(), before, doubt.decisions(), page, locale);
    }

    private Row row(
            ReadingView reading, String before, List<DecisionView> decisions, ReadingLines.Page page, Locale locale) {
        return new Row(
                page.of(reading),
                systems.require(reading.systemId()),
                before,
                decisions.stream()
                        .map(decision -> new Done(
                                decision.page(),
                                messages.getMessage(
                                        decision.summaryCode(), decision.args().toArray(), locale)))
                        .toList());
    }
}
