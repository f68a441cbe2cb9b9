package app.tankround.health;

import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.InstrumentId;
import app.tankround.readings.Answer;
import app.tankround.readings.ReadingId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/**
 * One reading of a series, with what is known about it now.
 *
 * @param value as written, in {@code unit}; empty if not measured
 * @param corrected on the same scale, where a number can be corrected
 * @param salinity practical salinity, for readings of salinity
 * @param knownWrong whether the last check before it had left the instrument outside its permitted error
 */
public record SeriesPoint(
        ReadingId id,
        Quantity quantity,
        Optional<String> samplePoint,
        Instant takenAt,
        Optional<UUID> visitId,
        Optional<InstrumentId> instrument,
        Answer answer,
        Optional<Double> value,
        MeasurementUnit unit,
        Optional<String> gravityReference,
        VerdictCode verdict,
        boolean trusted,
        boolean doubtful,
        boolean knownWrong,
        Optional<Double> corrected,
        Optional<Double> salinity,
        Optional<Double> targetLow,
        Optional<Double> targetHigh) {

    public boolean measured() {
        return answer != Answer.NOT_MEASURED;
    }

    /** Whether it lies outside its target, uncertainty allowed for. */
    public boolean outside() {
        return verdict == VerdictCode.ABOVE || verdict == VerdictCode.BELOW;
    }

    /** Whether something was found that must not be there at all: its target is at most zero. */
    public boolean found() {
        boolean mustNotBe = targetHigh.filter(limit -> limit == 0).isPresent();
        boolean detected = switch (answer) {
            case VALUE, ABOVE_RANGE, BETWEEN ->
                value.filter(amount -> amount > 0).isPresent();
            case BELOW_DETECTION, NOT_MEASURED -> false;
        };
        return mustNotBe && detected;
    }

    /**
     * Whether animals are in danger by what was measured, taken as it was written or as it was judged: what nobody trusts is
     * no reason to wait.
     */
    public boolean endangers() {
        return measured()
                && (RangeVerdict.endangers(quantity, verdict)
                        || RangeVerdict.kills(quantity) && found()
                        || (doubtful || knownWrong) && (wasRead(VerdictCode.ABOVE) || wasRead(VerdictCode.BELOW)));
    }

    private boolean wasRead(VerdictCode side) {
        Optional<Double> limit = side == VerdictCode.ABOVE ? targetHigh : targetLow;
        int sign = side == VerdictCode.ABOVE ? 1 : -1;
        return answer != Answer.BELOW_DETECTION
                && RangeVerdict.endangers(quantity, side)
                && value.flatMap(read -> limit.map(at -> sign * (read - at) > 0))
                        .orElse(false);
    }

    /** What to draw: nothing found is drawn as none; a reading in doubt stands where it was read. */
    public Optional<Double> drawn() {
        if (answer == Answer.BELOW_DETECTION) {
            return Optional.of(0.0);
        }
        return doubtful || knownWrong ? value : corrected.or(() -> value);
    }

    /** Whether both are on one scale and so in one drawing. */
    public boolean sameScale(SeriesPoint other) {
        return unit == other.unit && gravityReference.equals(other.gravityReference);
    }
}
