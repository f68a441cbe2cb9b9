package app.tankround.readings;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.DecisionRule;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.SuspicionView;
import java.time.Clock;
import java.time.Instant;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What trusted instruments showed on the waters that a suspect or condemned one was read on. */
@Service
@Transactional(readOnly = true)
public class DoubtWitnesses {

    /** As many say enough on one page, chosen among so many. */
    private static final int MOST = 6;

    private static final int LOOKED_AT = 60;

    private final DoubtRows rows;
    private final ReadingService readings;
    private final CalibrationService calibrations;
    private final BusinessProfile business;
    private final Clock clock;

    DoubtWitnesses(
            DoubtRows rows,
            ReadingService readings,
            CalibrationService calibrations,
            BusinessProfile business,
            Clock clock) {
        this.rows = rows;
        this.readings = readings;
        this.calibrations = calibrations;
        this.business = business;
        this.clock = clock;
    }

    /**
     * The nearest before and after, within {@link DoubtWitness#WINDOW}; each beside the reading in doubt that it is nearest to.
     * Those on the newest readings come first. Empty while the instrument is neither suspect nor condemned.
     */
    public List<DoubtWitness> of(InstrumentId instrument) {
        CalibrationHistory history = calibrations.history(instrument);
        return history.open()
                .or(history::condemning)
                .map(suspicion -> of(history, suspicion))
                .orElse(List.of());
    }

    /** Where an instrument is itself the trusted one beside a suspect or condemned one, on one sample, newest first. */
    public List<DoubtWitness> against(InstrumentId trusted) {
        return calibrations.histories().values().stream()
                .filter(history -> !history.instrument().id().equals(trusted))
                .flatMap(history -> of(history.instrument().id()).stream())
                .filter(witness ->
                        witness.other().instrumentId().filter(trusted::equals).isPresent())
                .filter(DoubtWitness::isOfOneSample)
                .sorted(Comparator.comparing(
                                (DoubtWitness witness) -> witness.other().takenAt())
                        .reversed())
                .toList();
    }

    private List<DoubtWitness> of(CalibrationHistory history, SuspicionView suspicion) {
        List<DoubtRows.Pair> pairs = rows.nearest(
                history.instrument().id(), suspicion.doubtFrom().orElse(Instant.EPOCH), DoubtWitness.WINDOW, LOOKED_AT);
        Map<ReadingId, ReadingView> found = readings.find(pairs.stream()
                .flatMap(pair -> Stream.of(pair.doubted(), pair.other()))
                .collect(Collectors.toSet()));
        Instant failed = history.failed()
                .map(check -> Instant.ofEpochSecond(check.atEpochSecond()))
                .orElse(suspicion.since());
        CalibrationHistory before = history.upTo(failed.minusSeconds(1));
        Map<ReadingId, DoubtWitness> nearest = new LinkedHashMap<>();
        pairs.stream()
                .map(pair -> witness(
                        before,
                        Objects.requireNonNull(found.get(pair.doubted())),
                        Objects.requireNonNull(found.get(pair.other()))))
                .forEach(witness -> nearest.merge(
                        witness.other().id(),
                        witness,
                        (one, two) -> two.apart().compareTo(one.apart()) < 0 ? two : one));
        return nearest.values().stream().limit(MOST).toList();
    }

    private DoubtWitness witness(CalibrationHistory before, ReadingView doubted, ReadingView other) {
        AssessmentView believed = ReadingRule.assess(
                doubted.stated(),
                Optional.of(before),
                new TargetOnScale(Optional.empty(), Optional.empty(), false),
                DecisionRule.GUARD_BAND,
                business.zone(),
                clock.instant());
        boolean corrected = !doubted.assessment().correctedValue().equals(believed.correctedValue());
        return new DoubtWitness(
                doubted,
                believed,
                other,
                DoubtWitness.Compared.of(doubted, believed, other),
                corrected ? DoubtWitness.Compared.of(doubted, doubted.assessment(), other) : Optional.empty());
    }
}
