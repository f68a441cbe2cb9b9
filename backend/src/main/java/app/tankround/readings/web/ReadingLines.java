package app.tankround.readings.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.InstrumentView;
import app.tankround.readings.KitTimesKept;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingMarks;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.VerdictMark;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Makes lines of tables from readings. */
@Component
class ReadingLines {

    /**
     * A reading in words; {@code mark} is null where there is nothing to draw.
     *
     * @param untimely by how much its kit was not read in its time; empty where that is not known, or it was
     */
    record Line(
            ReadingView reading,
            String quantity,
            String when,
            VerdictWords.Words words,
            String target,
            @Nullable VerdictMark mark,
            String instrument,
            String person,
            String untimely) {}

    private final VerdictWords words;
    private final KitTimesKept kitTimes;
    private final MessageSource messages;
    private final WaterSystems systems;
    private final InstrumentRegister instruments;
    private final People people;
    private final BusinessProfile business;

    ReadingLines(
            VerdictWords words,
            KitTimesKept kitTimes,
            MessageSource messages,
            WaterSystems systems,
            InstrumentRegister instruments,
            People people,
            BusinessProfile business) {
        this.words = words;
        this.kitTimes = kitTimes;
        this.messages = messages;
        this.systems = systems;
        this.instruments = instruments;
        this.people = people;
        this.business = business;
    }

    /** Starts a page, which asks for each instrument, person and system once. */
    Page page(Locale locale) {
        return new Page(locale);
    }

    ZoneId zone() {
        return business.zone();
    }

    /** The words of one page. */
    final class Page {

        private final Locale locale;
        private final DateTimeFormatter moment;
        private final Map<InstrumentId, String> codes = new HashMap<>();
        private final Map<PersonId, String> names = new HashMap<>();
        private final Map<WaterSystemId, String> places = new HashMap<>();
        private final Map<WaterSystemId, List<SamplePointView>> points = new HashMap<>();
        private final Map<ReadingId, Duration> untimely = new HashMap<>();

        private Page(Locale locale) {
            this.locale = locale;
            this.moment = DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT)
                    .withLocale(locale)
                    .withZone(zone());
        }

        /** Lines of many, asked for together. */
        List<Line> of(List<ReadingView> readings) {
            untimely.putAll(
                    kitTimes.missed(readings.stream().map(ReadingView::id).toList()));
            return readings.stream().map(this::of).toList();
        }

        private String untimely(ReadingView reading) {
            Duration off = untimely.get(reading.id());
            if (off == null) {
                return "";
            }
            String code = off.isNegative() ? "readings.kit-early" : "readings.kit-late";
            long seconds = off.abs().toSeconds();
            return messages.getMessage(code, new Object[] {seconds / 60, seconds % 60}, locale);
        }

        Line of(ReadingView reading, Optional<Double> previous) {
            return line(reading, ReadingMarks.of(reading, previous).orElse(null));
        }

        /** Drawn on the scale of others, if it has one of its own. */
        Line of(ReadingView reading, ReadingMarks.@Nullable Scale scale) {
            return line(
                    reading,
                    ReadingMarks.scale(reading)
                            .map(own -> ReadingMarks.of(reading, Optional.empty(), scale == null ? own : scale))
                            .orElse(null));
        }

        private Line line(ReadingView reading, @Nullable VerdictMark mark) {
            return new Line(
                    reading,
                    name(reading),
                    when(reading.takenAt()),
                    words.of(reading, locale),
                    words.target(reading, locale).orElse(""),
                    mark,
                    reading.instrumentId()
                            .map(this::code)
                            .filter(code -> !code.isEmpty())
                            .or(reading::kitLot)
                            .orElse(""),
                    person(reading.person()),
                    untimely(reading));
        }

        Line of(ReadingView reading) {
            return of(reading, Optional.empty());
        }

        /** The quantity, with the sample point where its system has several. */
        String name(ReadingView reading) {
            String quantity = words.quantity(reading.quantity(), locale);
            if (reading.samplePointId().isEmpty()) {
                return quantity;
            }
            List<SamplePointView> ofSystem = points.computeIfAbsent(reading.systemId(), systems::samplePoints);
            return ofSystem.stream()
                    .filter(point ->
                            ofSystem.size() > 1 && reading.samplePointId().get().equals(point.id()))
                    .findFirst()
                    .map(point -> quantity + ", " + point.name())
                    .orElse(quantity);
        }

        String when(Instant instant) {
            return moment.format(instant);
        }

        /** Code and name of a system; empty if it is gone. */
        String where(WaterSystemId system) {
            return places.computeIfAbsent(
                    system,
                    id -> systems.find(id)
                            .map(found -> found.code() + ", " + found.name())
                            .orElse(""));
        }

        /** Code of an instrument; empty if it is gone. */
        String code(InstrumentId instrument) {
            return codes.computeIfAbsent(
                    instrument,
                    id -> instruments.find(id).map(InstrumentView::code).orElse(""));
        }

        /** Name of a person; empty if nobody is known by that id. */
        String person(PersonId person) {
            return names.computeIfAbsent(
                    person, id -> people.find(id).map(PersonView::name).orElse(""));
        }
    }
}
