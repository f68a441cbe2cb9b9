package app.tankround.readings;

import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.CalibrationView;
import app.tankround.instruments.InstrumentChecked;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentRegister;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import org.springframework.stereotype.Component;

/**
 * Registers that an instrument was adjusted: a decision that rests on the check that it was made by, and on what the
 * instrument and others showed of the same samples since the check before.
 */
@Component
class InstrumentAdjustments {

    private final CalibrationService calibrations;
    private final InstrumentRegister instruments;
    private final ReadingRows readings;
    private final DecisionRegister decisions;

    InstrumentAdjustments(
            CalibrationService calibrations,
            InstrumentRegister instruments,
            ReadingRows readings,
            DecisionRegister decisions) {
        this.calibrations = calibrations;
        this.instruments = instruments;
        this.readings = readings;
        this.decisions = decisions;
    }

    /** Does nothing where the check adjusted nothing, and registers each standard of a check once. */
    void register(InstrumentChecked checked) {
        InstrumentId instrument = checked.instrumentId();
        List<CalibrationView> all = calibrations.of(instrument);
        List<CalibrationView> adjusted = all.stream()
                .filter(row -> row.performedAt().equals(checked.performedAt()))
                .filter(row -> row.meanAsLeft().compareTo(row.meanAsFound()) != 0)
                .filter(row -> !decisions.restsOn(row.id()))
                .toList();
        if (adjusted.isEmpty()) {
            return;
        }
        Instant before = all.stream()
                .map(CalibrationView::performedAt)
                .filter(at -> at.isBefore(checked.performedAt()))
                .max(Comparator.naturalOrder())
                .orElse(Instant.EPOCH);
        List<ReadingId> compared =
                readings.onOneSample(instrument, before, checked.performedAt(), SampleComparisons.ONE_SAMPLE);
        String code = instruments.require(instrument).code();
        decisions.registerAll(adjusted.stream()
                .map(row -> new NewDecision(
                        "instrument-adjusted",
                        "instrument",
                        instrument.value(),
                        "/instruments/" + instrument,
                        "readings.decision.instrument-adjusted",
                        List.of(
                                code,
                                row.standardCode(),
                                row.meanAsFound().toPlainString(),
                                row.meanAsLeft().toPlainString()),
                        compared,
                        List.of(),
                        List.of(row.id())))
                .toList());
    }
}
