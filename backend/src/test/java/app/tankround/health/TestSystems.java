package app.tankround.health;

import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.InstrumentId;
import app.tankround.readings.Answer;
import app.tankround.readings.ReadingId;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** Invented systems with readings taken at noon UTC. */
final class TestSystems {

    static final LocalDate TODAY = LocalDate.of(2026, 11, 19);

    private final String code;
    private SystemKind kind = SystemKind.FISH_ONLY;
    private InfectionClass infectionClass = InfectionClass.HEALTHY;
    private LocalDate classSince = LocalDate.of(2025, 1, 1);
    private @Nullable LocalDate startedOn = LocalDate.of(2024, 1, 1);
    private int rhythmDays = 7;
    private @Nullable LocalDate filmSeenOn;
    private SystemFacts.@Nullable WaterLevel waterLevel;
    private SystemFacts.@Nullable Purified purified;
    private final List<List<SeriesPoint>> series = new ArrayList<>();

    private TestSystems(String code) {
        this.code = code;
    }

    static TestSystems system(String code) {
        return new TestSystems(code);
    }

    TestSystems of(SystemKind changed) {
        kind = changed;
        return this;
    }

    TestSystems startedDaysAgo(int days) {
        startedOn = TODAY.minusDays(days);
        return this;
    }

    TestSystems startedNobodyKnowsWhen() {
        startedOn = null;
        return this;
    }

    TestSystems withFilm(int daysAgo) {
        filmSeenOn = TODAY.minusDays(daysAgo);
        return this;
    }

    TestSystems inQuarantineSince(LocalDate since) {
        infectionClass = InfectionClass.QUARANTINE;
        classSince = since;
        return this;
    }

    TestSystems visitedEvery(int days) {
        rhythmDays = days;
        return this;
    }

    TestSystems withWater(boolean atMark, @Nullable Double missingLitres) {
        waterLevel = new SystemFacts.WaterLevel(atMark, Optional.ofNullable(missingLitres));
        return this;
    }

    TestSystems behind(SystemFacts.Purified plant) {
        purified = plant;
        return this;
    }

    TestSystems with(SeriesPoint... points) {
        series.add(List.of(points));
        return this;
    }

    SystemFacts facts() {
        return new SystemFacts(
                WaterSystemId.of(new UUID(1, code.hashCode())),
                code,
                "Foyer",
                "Site",
                "Client",
                kind,
                infectionClass,
                classSince,
                Optional.ofNullable(startedOn),
                400,
                rhythmDays,
                Optional.of(LocalDate.of(2024, 1, 1)),
                Optional.empty(),
                Optional.ofNullable(filmSeenOn),
                Optional.ofNullable(waterLevel),
                Optional.ofNullable(purified),
                series);
    }

    /** A trusted reading inside its target, to be changed with the rest. */
    static Point point(Quantity quantity, int daysAgo, double value) {
        return new Point(quantity, daysAgo, value);
    }

    /** A reading in the making. */
    static final class Point {

        private final Quantity quantity;
        private final int daysAgo;
        private final double value;
        private Answer answer = Answer.VALUE;
        private VerdictCode verdict = VerdictCode.INSIDE;
        private boolean trusted = true;
        private boolean doubtful;
        private boolean knownWrong;
        private @Nullable String samplePoint;
        private @Nullable InstrumentId instrument;
        private @Nullable Double low;
        private @Nullable Double high;

        private Point(Quantity quantity, int daysAgo, double value) {
            this.quantity = quantity;
            this.daysAgo = daysAgo;
            this.value = value;
        }

        Point target(@Nullable Double lowest, @Nullable Double highest) {
            low = lowest;
            high = highest;
            return this;
        }

        Point at(String point) {
            samplePoint = point;
            return this;
        }

        Point with(InstrumentId used) {
            instrument = used;
            return this;
        }

        Point answered(Answer changed) {
            answer = changed;
            return this;
        }

        SeriesPoint inDoubt() {
            trusted = false;
            doubtful = true;
            return is(VerdictCode.ABOVE);
        }

        SeriesPoint knownWrong() {
            trusted = false;
            knownWrong = true;
            return is(VerdictCode.INSIDE);
        }

        SeriesPoint untrusted(VerdictCode judged) {
            trusted = false;
            return is(judged);
        }

        SeriesPoint inside() {
            return is(VerdictCode.INSIDE);
        }

        SeriesPoint is(VerdictCode judged) {
            verdict = judged;
            boolean salinity = quantity == Quantity.SALINITY;
            Optional<Double> number = answer == Answer.NOT_MEASURED ? Optional.empty() : Optional.of(value);
            return new SeriesPoint(
                    ReadingId.of(new UUID(quantity.ordinal(), daysAgo)),
                    quantity,
                    Optional.ofNullable(samplePoint),
                    TestSystems.at(daysAgo),
                    Optional.empty(),
                    Optional.ofNullable(instrument),
                    answer,
                    number,
                    salinity
                            ? MeasurementUnit.PRACTICAL_SALINITY
                            : quantity.units().getFirst(),
                    Optional.empty(),
                    verdict,
                    trusted,
                    doubtful,
                    knownWrong,
                    number,
                    salinity ? number : Optional.empty(),
                    Optional.ofNullable(low),
                    Optional.ofNullable(high));
        }
    }

    private static Instant at(int daysAgo) {
        return TODAY.minusDays(daysAgo).atTime(LocalTime.NOON).toInstant(ZoneOffset.UTC);
    }
}
