package app.tankround.instruments;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.InstrumentCorrection;
import app.tankround.chemistry.InstrumentFacts;
import app.tankround.chemistry.InstrumentHistory;
import app.tankround.chemistry.InstrumentStatus;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * An instrument with all its checks, as the formulas take them.
 *
 * @param history each check carries as its id the ids of its calibrations, separated by commas
 */
public record CalibrationHistory(InstrumentView instrument, InstrumentHistory history) {

    public InstrumentFacts facts() {
        return history.facts();
    }

    /** Oldest first. */
    public List<CalibrationCheck> checks() {
        return history.checks();
    }

    /** When a check in the working range last found the instrument within its permitted error and left it so, before {@code instant}. */
    public Optional<Instant> lastGoodBefore(Instant instant) {
        return checks().reversed().stream()
                .filter(check -> check.atEpochSecond() < instant.getEpochSecond())
                .filter(this::isGood)
                .findFirst()
                .map(CalibrationHistory::at);
    }

    /** When it was last checked at all. */
    public Optional<Instant> last() {
        return checks().isEmpty() ? Optional.empty() : Optional.of(at(checks().getLast()));
    }

    /** What the checks say about the instrument at an instant, whatever the reading. */
    public InstrumentStatus statusAt(Instant instant) {
        double anywhere =
                checks().isEmpty() ? 0 : checks().getLast().points().getLast().trueValue();
        return InstrumentCorrection.correct(history, anywhere, instant.getEpochSecond())
                .status();
    }

    /** Whether a check was in the working range and passed both as found and as left. */
    public boolean isGood(CalibrationCheck check) {
        return check.isGood(facts().permittedError());
    }

    private static Instant at(CalibrationCheck check) {
        return Instant.ofEpochSecond(check.atEpochSecond());
    }
}
