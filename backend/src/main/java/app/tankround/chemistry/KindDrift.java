package app.tankround.chemistry;

import java.util.List;

/** How much the instruments of one kind wander between checks, from all their histories together. */
public final class KindDrift {

    private KindDrift() {}

    /**
     * By how much the error of this kind wanders in a day, in permitted errors, as a standard deviation; pooled over the
     * intervals of all instruments as {@link ErrorSeries} does for one, without those in which one was knocked, and
     * shrunk towards the usual figure by as much as
     * two intervals weigh. Times the permitted error of one of them it is {@link InstrumentFacts#driftPerRootDay}.
     *
     * @param ofOneKind instruments of one kind but not the one that it is for, whose own history comes on top; their scales may
     *     differ
     * @param checkIntervalDays the usual interval of the kind, 1 to 3660
     */
    public static double perRootDay(List<InstrumentHistory> ofOneKind, int checkIntervalDays) {
        double usual = Uncertainty.rectangular(1);
        double usualVariance = usual * usual / checkIntervalDays;
        double weights = ErrorSeries.KIND_INTERVALS;
        double sum = ErrorSeries.KIND_INTERVALS * usualVariance;
        for (InstrumentHistory history : ofOneKind) {
            double permitted = history.facts().permittedError();
            double root = Math.sqrt(usualVariance);
            InstrumentHistory alike = new InstrumentHistory(
                    history.facts().withDriftPerRootDay(permitted * root),
                    history.checks(),
                    history.droppedAtEpochSeconds());
            ErrorSeries series =
                    new ErrorSeries(alike, new CheckOutcomes(alike), workingReading(history), history.repeatVariance());
            weights += series.calmWeight();
            sum += series.calmSum() / (permitted * permitted);
        }
        return Math.sqrt(Math.max(ErrorSeries.LEAST * usualVariance, sum / weights));
    }

    private static double workingReading(InstrumentHistory history) {
        double reading = 0;
        for (CalibrationCheck check : history.checks()) {
            for (CheckPoint point : check.points()) {
                reading = point.role() == StandardRole.WORKING_RANGE ? point.trueValue() : reading;
            }
        }
        return reading;
    }
}
