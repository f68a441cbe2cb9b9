package app.tankround.instruments;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckOutcome;
import app.tankround.chemistry.CheckOutcomes;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.CorrectedReading;
import app.tankround.chemistry.InstrumentCorrection;
import app.tankround.chemistry.InstrumentFacts;
import app.tankround.chemistry.InstrumentHistory;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.ReadInstrument;
import app.tankround.chemistry.StandardRole;
import app.tankround.chemistry.StandardState;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * An instrument with all its checks, as the formulas take them, and every time that it was suspect.
 *
 * @param history each check carries as its id the ids of its calibrations, separated by commas
 * @param suspicions oldest first
 */
public record CalibrationHistory(InstrumentView instrument, InstrumentHistory history, List<SuspicionView> suspicions) {

    public CalibrationHistory {
        suspicions = List.copyOf(suspicions);
    }

    public InstrumentFacts facts() {
        return history.facts();
    }

    /**
     * As the verdict on a reading takes it.
     *
     * @param zone of the business, in which days begin
     */
    public ReadInstrument asRead(ZoneId zone) {
        return new ReadInstrument(
                history,
                instrument.kind().isKit(),
                instrument
                        .expiresOn()
                        .map(day ->
                                day.plusDays(1).atStartOfDay(zone).toInstant().toEpochMilli())
                        .orElse(null),
                instrument.rangeLow().map(BigDecimal::doubleValue).orElse(null),
                instrument.rangeHigh().map(BigDecimal::doubleValue).orElse(null),
                suspicions.stream().map(SuspicionView::asFormula).toList());
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

    /**
     * Where the last check in the working range looked, on the instrument's scale.
     *
     * @param low of its lowest standard
     * @param high of its highest; the same where there was one
     */
    public record Span(double low, double high) {

        public boolean isOnePoint() {
            return high - low == 0;
        }

        public boolean covers(double value) {
            return value >= low && value <= high;
        }
    }

    /** Where it was checked when something was read at an instant; empty if never in the working range. */
    public Optional<Span> checkedSpanAt(Instant instant) {
        return checks().reversed().stream()
                .filter(check -> check.atEpochSecond() <= instant.getEpochSecond())
                .filter(CalibrationCheck::checksWorkingRange)
                .findFirst()
                .map(check -> check.points().stream()
                        .mapToDouble(CheckPoint::trueValue)
                        .summaryStatistics())
                .map(values -> new Span(values.getMin(), values.getMax()));
    }

    /** When it was last checked at all. */
    public Optional<Instant> last() {
        return checks().isEmpty() ? Optional.empty() : Optional.of(at(checks().getLast()));
    }

    /** What stands about the instrument at an instant, whatever the reading. */
    public InstrumentStatus statusAt(Instant instant) {
        InstrumentStatus checked = checkedAt(instant);
        return switch (suspectedAt(instant)) {
            case CONDEMNED -> InstrumentStatus.CONDEMNED;
            case SUSPECT -> checked == InstrumentStatus.CONDEMNED ? checked : InstrumentStatus.SUSPECT;
            case IN_USE -> checked;
        };
    }

    /** Whether anything may rest on what it showed at an instant, apart from when it was checked last. */
    public Standing standingAt(Instant instant) {
        return switch (statusAt(instant)) {
            case SUSPECT -> Standing.SUSPECT;
            case CONDEMNED -> Standing.CONDEMNED;
            default -> Standing.IN_USE;
        };
    }

    /**
     * Whether anything may be done because of what it showed at an instant: not while it is suspect or condemned, nor
     * before its first check, nor where a later check failed, nor past its last day. A test kit is taken at the error that its
     * register states until it is checked.
     *
     * @param zone of the business, in which days begin
     */
    public boolean decidesAt(Instant instant, ZoneId zone) {
        if (isExpiredAt(instant, zone)) {
            return false;
        }
        InstrumentStatus status = statusAt(instant);
        boolean uncheckedKit =
                status == InstrumentStatus.NEVER_CHECKED && instrument.kind().isKit();
        return uncheckedKit || (status.decides() && !usualAt(instant).doubtful());
    }

    /** Whether its last day was over. */
    public boolean isExpiredAt(Instant instant, ZoneId zone) {
        return instrument
                .expiresOn()
                .filter(LocalDate.ofInstant(instant, zone)::isAfter)
                .isPresent();
    }

    /**
     * Why it decides nothing at an instant, as the last part of a message code: EXPIRED, else what stands about it.
     *
     * @param zone of the business
     */
    public String reasonAt(Instant instant, ZoneId zone) {
        return isExpiredAt(instant, zone) ? "EXPIRED" : statusAt(instant).name();
    }

    /** What the checks alone say. */
    InstrumentStatus checkedAt(Instant instant) {
        return usualAt(instant).status();
    }

    /** Whether what was read at its last check contradicts itself in some standard, so that it is to be repeated. */
    public boolean lastContradicts() {
        return !checks().isEmpty()
                && checks().getLast().points().stream()
                        .anyMatch(point -> point.standardState() == StandardState.READINGS_CONTRADICT);
    }

    /**
     * What a reading where it is usually used would be worth at an instant, by its checks alone; where it failed, if it is
     * suspect or condemned since a check.
     */
    public CorrectedReading usualAt(Instant instant) {
        double where = failed().map(check -> check.worst().meanAsFound()).orElseGet(this::usual);
        return InstrumentCorrection.correct(history, where, instant.getEpochSecond());
    }

    /** Where its last check in the working range left it furthest off. */
    private double usual() {
        return checks().reversed().stream()
                .filter(CalibrationCheck::checksWorkingRange)
                .findFirst()
                .or(() -> checks().reversed().stream().findFirst())
                .flatMap(check -> check.points().stream()
                        .filter(point -> point.role() == StandardRole.WORKING_RANGE || !check.checksWorkingRange())
                        .max(Comparator.comparingDouble(point -> Math.abs(point.errorAsLeft()))))
                .map(CheckPoint::meanAsLeft)
                .orElse(0.0);
    }

    /** The check because of which it is suspect or condemned, if one is. */
    public Optional<CalibrationCheck> failed() {
        return open().or(this::condemning).flatMap(this::failed);
    }

    /** Whether a check at an instant failed and a second standard said the same, so that the instrument was wrong then. */
    public boolean isConfirmedFailure(Instant instant) {
        CheckOutcomes outcomes = new CheckOutcomes(history);
        return IntStream.range(0, checks().size())
                .anyMatch(i -> at(checks().get(i)).equals(instant) && outcomes.of(i) == CheckOutcome.CONFIRMED);
    }

    private Optional<CalibrationCheck> failed(SuspicionView suspicion) {
        CheckOutcomes outcomes = new CheckOutcomes(history);
        for (int i = 0; i < checks().size(); i++) {
            CalibrationCheck check = checks().get(i);
            boolean named = suspicion.checkAt().filter(at(check)::equals).isPresent();
            boolean since = suspicion.checkAt().isEmpty() && !at(check).isBefore(suspicion.since());
            if (named || (since && outcomes.of(i).failed())) {
                return Optional.of(check);
            }
        }
        return Optional.empty();
    }

    /** What others than its checks said of it at an instant. */
    public Standing suspectedAt(Instant instant) {
        return suspicions.stream()
                .map(suspicion -> suspicion.standingAt(instant))
                .max(Comparator.naturalOrder())
                .orElse(Standing.IN_USE);
    }

    /** The suspicion that waits for a check. */
    public Optional<SuspicionView> open() {
        return suspicions.stream().filter(SuspicionView::isOpen).findFirst();
    }

    /** The suspicion that condemned it, if nobody has put it back in use since. */
    public Optional<SuspicionView> condemning() {
        return suspicions.reversed().stream()
                .filter(SuspicionView::isCondemning)
                .findFirst();
    }

    /** What was known of it at an instant: its checks and drops up to then, and how it stood. */
    public CalibrationHistory upTo(Instant instant) {
        long second = instant.getEpochSecond();
        return new CalibrationHistory(
                instrument,
                new InstrumentHistory(
                        facts(),
                        checks().stream()
                                .filter(check -> check.atEpochSecond() <= second)
                                .toList(),
                        history.droppedAtEpochSeconds().stream()
                                .filter(drop -> drop <= second)
                                .toList()),
                suspicions.stream()
                        .filter(suspicion -> !suspicion.since().isAfter(instant))
                        .toList());
    }

    /** Whether a check was in the working range and passed both as found and as left. */
    public boolean isGood(CalibrationCheck check) {
        return check.isGood(facts().permittedError());
    }

    /**
     * The same without what was found wrong between two instants, for readings in between: without the checks after
     * {@code until}, and without the drops and suspicions since {@code from}.
     */
    public CalibrationHistory believed(Instant from, Instant until) {
        List<CalibrationCheck> kept =
                checks().stream().filter(check -> !at(check).isAfter(until)).toList();
        List<Long> drops = history.droppedAtEpochSeconds().stream()
                .filter(dropped -> dropped < from.getEpochSecond())
                .toList();
        return new CalibrationHistory(
                instrument,
                new InstrumentHistory(facts(), kept, drops),
                suspicions.stream()
                        .filter(suspicion -> suspicion.since().isBefore(from))
                        .toList());
    }

    static Instant at(CalibrationCheck check) {
        return Instant.ofEpochSecond(check.atEpochSecond());
    }
}
