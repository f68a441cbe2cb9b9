package app.tankround.readings;

import app.tankround.chemistry.CorrectedReading;
import app.tankround.chemistry.InstrumentComparison;
import app.tankround.chemistry.InstrumentComparison.Side;
import app.tankround.chemistry.InstrumentComparison.Suspected;
import app.tankround.chemistry.InstrumentCorrection;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.units.UnitConversions;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Two instruments on one sample: readings of one quantity in one place, with different instruments, within a few minutes.
 * Where they disagree beyond their uncertainties a matter is opened; it is settled once they agree again.
 */
@Service
@Transactional
public class SampleComparisons {

    /** Two readings this far apart are still of the same water (common practice, no source). */
    static final Duration ONE_SAMPLE = Duration.ofMinutes(10);

    /** What was read longer ago, as in records brought over, needs nobody today; common practice, no source. */
    private static final Duration FRESH = Duration.ofHours(24);

    /** What two instruments showed longer ago says little of how they are now; common practice, no source. */
    private static final Duration LATELY = Duration.ofDays(60);

    private final ReadingRows rows;
    private final CalibrationService calibrations;
    private final WaterSystems systems;
    private final Followups followups;
    private final Clock clock;

    SampleComparisons(
            ReadingRows rows, CalibrationService calibrations, WaterSystems systems, Followups followups, Clock clock) {
        this.rows = rows;
        this.calibrations = calibrations;
        this.systems = systems;
        this.followups = followups;
        this.clock = clock;
    }

    /**
     * A reading beside one of another instrument.
     *
     * @param other the other reading
     * @param code of the instrument of the reading
     * @param otherCode of the other's
     * @param result the reading as first, the other as second
     */
    public record Compared(ReadingView other, String code, String otherCode, InstrumentComparison result) {

        /** Code of the instrument that is likelier wrong; empty where they agree or their checks do not say. */
        public Optional<String> likelierWrong() {
            return switch (result.likelierWrong()) {
                case FIRST -> Optional.of(code);
                case SECOND -> Optional.of(otherCode);
                case NEITHER, OPEN -> Optional.empty();
            };
        }
    }

    /** The other instruments' readings of the same sample, each compared with this one; oldest first. */
    @Transactional(readOnly = true)
    public List<Compared> of(ReadingView reading) {
        if (!isComparable(reading)) {
            return List.of();
        }
        return rows.onOneSample(reading, ONE_SAMPLE).stream()
                .filter(SampleComparisons::isComparable)
                .flatMap(other -> compare(reading, other).stream())
                .toList();
    }

    /**
     * The newest comparison of an instrument with each other one, within {@link #LATELY}, where the two disagree; newest
     * first. Once they agreed on a later sample, that is over.
     */
    @Transactional(readOnly = true)
    public List<Disagreement> disagreeing(InstrumentId instrument) {
        Instant now = clock.instant();
        List<ReadingId> ids = rows.onOneSample(instrument, now.minus(LATELY), now.plusSeconds(1), ONE_SAMPLE);
        if (ids.isEmpty()) {
            return List.of();
        }
        Map<InstrumentId, Disagreement> newest = new LinkedHashMap<>();
        rows
                .where(
                        "r.id = any(cast(:ids as uuid[])) and r.instrument_id = :instrument order by r.taken_at desc",
                        Map.of(
                                "ids",
                                ids.stream().map(ReadingId::value).toArray(UUID[]::new),
                                "instrument",
                                instrument.value()))
                .stream()
                .flatMap(
                        reading -> of(reading).reversed().stream().map(compared -> new Disagreement(reading, compared)))
                .forEach(each -> newest.putIfAbsent(
                        each.compared().other().instrumentId().orElseThrow(), each));
        return newest.values().stream()
                .filter(each -> !each.compared().result().agree())
                .toList();
    }

    /** A reading of an instrument that disagrees with another one's of the same sample. */
    public record Disagreement(ReadingView reading, Compared compared) {}

    /** Those of the readings that another instrument's reading of the same sample stands beside. */
    @Transactional(readOnly = true)
    public Set<ReadingId> accompanied(Collection<ReadingId> readings) {
        return rows.besideAnother(readings, ONE_SAMPLE, Instant.EPOCH).stream()
                .map(ReadingView::id)
                .collect(Collectors.toSet());
    }

    @EventListener
    void on(ReadingsRecorded recorded) {
        Instant fresh = clock.instant().minus(FRESH);
        rows.besideAnother(recorded.readings(), ONE_SAMPLE, fresh)
                .forEach(reading -> of(reading).forEach(compared -> tell(reading, compared)));
    }

    private void tell(ReadingView reading, Compared compared) {
        InstrumentId first = reading.instrumentId().orElseThrow();
        InstrumentId second = compared.other().instrumentId().orElseThrow();
        boolean inOrder = first.toString().compareTo(second.toString()) < 0;
        String topic = "instruments-disagree:" + (inOrder ? first + ":" + second : second + ":" + first);
        if (compared.result().agree()) {
            followups.settleTopic(topic, "readings.agree-again");
            return;
        }
        boolean secondWrong = compared.result().likelierWrong() == Suspected.SECOND;
        WaterSystemView system = systems.require(reading.systemId());
        String ground = compared.result().grounds().isEmpty()
                ? Suspected.OPEN.name()
                : compared.result().grounds().getFirst().name();
        followups.open(new NewFollowup(
                "readings.disagree." + ground,
                List.of(
                        system.code() + ", " + system.name(),
                        secondWrong ? compared.otherCode() : compared.code(),
                        secondWrong ? compared.code() : compared.otherCode()),
                Urgency.TODAY,
                "instrument",
                (secondWrong ? second : first).value(),
                topic,
                "/readings/" + reading.id()));
    }

    private static boolean isComparable(ReadingView reading) {
        return reading.instrumentId().isPresent()
                && reading.answer() == Answer.VALUE
                && reading.replacedBy().isEmpty()
                && reading.assessment().correctedValue().isPresent()
                && reading.assessment().uncertainty().filter(known -> known > 0).isPresent();
    }

    private Optional<Compared> compare(ReadingView reading, ReadingView other) {
        CalibrationHistory history = calibrations.history(reading.instrumentId().orElseThrow());
        CalibrationHistory otherHistory =
                calibrations.history(other.instrumentId().orElseThrow());
        Optional<Side> first = side(reading, reading, history);
        Optional<Side> second = side(other, reading, otherHistory);
        return first.flatMap(one -> second.map(two -> new Compared(
                other,
                history.instrument().code(),
                otherHistory.instrument().code(),
                InstrumentComparison.of(one, two))));
    }

    /** What an instrument said, on the scale of {@code scale}; salinities that are on two scales as practical salinity. */
    private static Optional<Side> side(ReadingView reading, ReadingView scale, CalibrationHistory history) {
        AssessmentView assessment = reading.assessment();
        double value = assessment.correctedValue().orElseThrow();
        double uncertainty = assessment.uncertainty().orElseThrow();
        if (reading.quantity() == Quantity.SALINITY) {
            if (assessment.salinity().isEmpty()
                    || assessment.salinityUncertainty().isEmpty()) {
                return Optional.empty();
            }
            value = assessment.salinity().get();
            uncertainty = assessment.salinityUncertainty().get();
        } else {
            double zero = UnitConversions.convert(0, reading.unit(), scale.unit());
            value = UnitConversions.convert(value, reading.unit(), scale.unit());
            uncertainty = UnitConversions.convert(uncertainty, reading.unit(), scale.unit()) - zero;
        }
        long at = reading.takenAt().getEpochSecond();
        CorrectedReading corrected = InstrumentCorrection.correct(
                history.history(), reading.value().map(BigDecimal::doubleValue).orElseThrow(), at);
        CorrectedReading standing = new CorrectedReading(
                corrected.asRead(),
                corrected.value(),
                corrected.error(),
                corrected.standardUncertainty(),
                corrected.budget(),
                corrected.movement(),
                corrected.correctable(),
                history.statusAt(reading.takenAt()),
                corrected.doubtful(),
                corrected.checkIds(),
                corrected.reasons());
        return Optional.of(new Side(value, uncertainty, history.history(), standing, at));
    }
}
