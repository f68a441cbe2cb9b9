package app.tankround.readings.web;

import app.tankround.instruments.InstrumentRegister;
import app.tankround.readings.DoubtListView;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.SmallSeries;
import app.tankround.tanks.SystemPanel;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Quantity;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** The newest reading of each quantity on a system's page. */
@Component
class SystemReadingsPanel implements SystemPanel {

    private static final Duration SHOWN = Duration.ofDays(120);

    record Row(ReadingLines.Line line, @Nullable SmallSeries series) {}

    /** A list that something known of the system is on. */
    record Doubt(DoubtListView list, String instrument) {}

    private final ReadingService readings;
    private final DoubtLists lists;
    private final InstrumentRegister instruments;
    private final ReadingLines lines;
    private final Clock clock;

    SystemReadingsPanel(
            ReadingService readings,
            DoubtLists lists,
            InstrumentRegister instruments,
            ReadingLines lines,
            Clock clock) {
        this.readings = readings;
        this.lists = lists;
        this.instruments = instruments;
        this.lines = lines;
        this.clock = clock;
    }

    @Override
    public int order() {
        return 10;
    }

    @Override
    public String fragment() {
        return "readings/panels :: latest";
    }

    @Override
    public Optional<String> summaryFragment() {
        return Optional.empty();
    }

    @Override
    public Map<String, Object> model(WaterSystemView system) {
        Locale locale = LocaleContextHolder.getLocale();
        Instant now = clock.instant();
        ReadingLines.Page page = lines.page(locale);
        List<Row> found = new ArrayList<>();
        readings.latest(system.id()).forEach((Quantity quantity, ReadingView newest) -> {
            List<ReadingView> series = readings.series(system.id(), quantity, now.minus(SHOWN), now.plusSeconds(1));
            Optional<Double> previous = series.size() < 2
                    ? Optional.empty()
                    : series.get(series.size() - 2).assessment().correctedValue();
            found.add(new Row(page.of(newest, previous), SmallSeries.of(series).orElse(null)));
        });
        List<Doubt> doubts = lists.touching(system.id()).stream()
                .map(list ->
                        new Doubt(list, instruments.require(list.instrumentId()).code()))
                .toList();
        return Map.of("system", system, "latest", found, "doubts", doubts);
    }
}
