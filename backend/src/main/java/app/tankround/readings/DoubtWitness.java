package app.tankround.readings;

import java.time.Duration;
import java.util.Optional;

/**
 * What a trusted instrument showed on the same water within a day of a reading by one that is suspect or condemned.
 *
 * @param doubted the reading in doubt, as it is judged now
 * @param believed the same by the checks before the one that failed
 * @param other what the trusted instrument showed
 * @param asBelieved the doubted reading less the other, by the checks before; empty where they have no scale in common
 * @param asCorrected likewise by the check that failed; empty too where that corrects nothing
 */
public record DoubtWitness(
        ReadingView doubted,
        AssessmentView believed,
        ReadingView other,
        Optional<Compared> asBelieved,
        Optional<Compared> asCorrected) {

    /** How far in time the other reading may lie; within it the water of a system hardly moves (common practice, no source). */
    public static final Duration WINDOW = Duration.ofDays(1);

    /**
     * Two readings on one scale.
     *
     * @param difference the doubted one less the other, as practical salinity where both have one, else in their unit
     * @param uncertainty of the difference, expanded (k = 2); 0 where neither is known
     */
    public record Compared(double difference, double uncertainty) {

        /** En; empty where no uncertainty is known. */
        public Optional<Double> normalizedError() {
            return uncertainty > 0 ? Optional.of(difference / uncertainty) : Optional.empty();
        }

        /** Whether they agree; true only where that can be told. */
        public boolean agrees() {
            return normalizedError().filter(error -> Math.abs(error) <= 1).isPresent();
        }

        /** On one scale; empty where they have none in common. */
        static Optional<Compared> of(ReadingView one, AssessmentView judged, ReadingView other) {
            AssessmentView trusted = other.assessment();
            if (judged.salinity().isPresent() && trusted.salinity().isPresent()) {
                return Optional.of(of(
                        judged.salinity().get() - trusted.salinity().get(),
                        judged.salinityUncertainty(),
                        trusted.salinityUncertainty()));
            }
            boolean oneScale =
                    one.unit() == other.unit() && one.gravityReference().equals(other.gravityReference());
            return judged.correctedValue()
                    .filter(value -> oneScale)
                    .flatMap(value -> trusted.correctedValue()
                            .map(known -> of(value - known, judged.uncertainty(), trusted.uncertainty())));
        }

        private static Compared of(double difference, Optional<Double> one, Optional<Double> other) {
            return new Compared(difference, Math.hypot(one.orElse(0.0), other.orElse(0.0)));
        }
    }

    /** Whether the other instrument was there first. */
    public boolean isBefore() {
        return !other.takenAt().isAfter(doubted.takenAt());
    }

    public Duration apart() {
        return Duration.between(doubted.takenAt(), other.takenAt()).abs();
    }

    /** Whether both are of one sample, so that what the other showed is known of that water. */
    public boolean isOfOneSample() {
        return apart().compareTo(SampleComparisons.ONE_SAMPLE) <= 0;
    }

    /** Whether it is practical salinities that are compared. */
    public boolean isOfSalinity() {
        return believed.salinity().isPresent() && other.assessment().salinity().isPresent();
    }
}
