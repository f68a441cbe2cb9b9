package app.tankround.instruments;

import app.tankround.accounts.PersonId;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * A check to be recorded: one or two standards held against an instrument at one instant.
 *
 * @param person who did it; empty for checks brought over from older records
 * @param instrumentTemperature of the instrument, in °C
 * @param adjusted what was adjusted
 * @param farOffConfirmed whether somebody has looked again at an as-found value that is wildly off and says it is what was seen
 */
public record NewCalibration(
        InstrumentId instrumentId,
        Instant performedAt,
        Optional<PersonId> person,
        List<Point> points,
        Optional<BigDecimal> instrumentTemperature,
        Optional<String> adjusted,
        Optional<String> note,
        boolean farOffConfirmed) {

    public NewCalibration {
        points = List.copyOf(points);
    }

    /**
     * One standard of the check.
     *
     * @param asFound what the instrument showed before anybody touched it, on its own scale; 1 to 10 readings
     * @param asLeft what it showed when it was put away, up to 10 readings; none if nothing was adjusted
     * @param temperature of the standard, in °C
     * @param millivolts what a pH electrode gave in it, before anything was adjusted; -1000 to 1000
     */
    public record Point(
            StandardId standardId,
            List<BigDecimal> asFound,
            List<BigDecimal> asLeft,
            Optional<BigDecimal> temperature,
            Optional<BigDecimal> millivolts) {

        public Point(
                StandardId standardId,
                List<BigDecimal> asFound,
                List<BigDecimal> asLeft,
                Optional<BigDecimal> temperature) {
            this(standardId, asFound, asLeft, temperature, Optional.empty());
        }

        public Point {
            asFound = List.copyOf(asFound);
            asLeft = List.copyOf(asLeft);
        }

        /** One reading before and one after. */
        public static Point single(
                StandardId standardId, BigDecimal asFound, BigDecimal asLeft, Optional<BigDecimal> temperature) {
            return new Point(standardId, List.of(asFound), List.of(asLeft), temperature);
        }
    }
}
