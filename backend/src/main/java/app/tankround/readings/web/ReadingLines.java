package app.tankround.readings.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonView;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.readings.ReadingMarks;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.VerdictMark;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Makes lines of tables from readings. */
@Component
class ReadingLines {

    /** A reading in words; {@code mark} is null where there is nothing to draw. */
    record Line(
            ReadingView reading,
            String quantity,
            String when,
            VerdictWords.Words words,
            String target,
            @Nullable VerdictMark mark,
            String instrument,
            String person) {}

    private final VerdictWords words;
    private final WaterSystems systems;
    private final InstrumentRegister instruments;
    private final People people;
    private final BusinessProfile business;

    ReadingLines(
            VerdictWords words,
            WaterSystems systems,
            InstrumentRegister instruments,
            People people,
            BusinessProfile business) {
        this.words = words;
        this.systems = systems;
        this.instruments = instruments;
        this.people = people;
        this.business = business;
    }

    Line of(ReadingView reading, Optional<Double> previous, Locale locale) {
        return new Line(
                reading,
                name(reading, locale),
                when(reading.takenAt(), locale),
                words.of(reading, locale),
                words.target(reading, locale).orElse(""),
                ReadingMarks.of(reading, previous).orElse(null),
                reading.instrumentId()
                        .flatMap(instruments::find)
                        .map(instrument -> instrument.code())
                        .or(reading::kitLot)
                        .orElse(""),
                people.find(reading.person()).map(PersonView::name).orElse(""));
    }

    /** The quantity, with the sample point where its system has several. */
    String name(ReadingView reading, Locale locale) {
        String quantity = words.quantity(reading.quantity(), locale);
        if (reading.samplePointId().isEmpty()) {
            return quantity;
        }
        List<SamplePointView> points = systems.samplePoints(reading.systemId());
        return points.stream()
                .filter(point ->
                        points.size() > 1 && reading.samplePointId().get().equals(point.id()))
                .findFirst()
                .map(point -> quantity + ", " + point.name())
                .orElse(quantity);
    }

    String when(Instant instant, Locale locale) {
        return DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT)
                .withLocale(locale)
                .withZone(zone())
                .format(instant);
    }

    ZoneId zone() {
        return business.zone();
    }
}
