package app.tankround.schedule;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.NextCheck;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.ChosenStandard;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.StandardRegister;
import app.tankround.instruments.StandardView;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * The checks of instruments that a day asks for.
 *
 * <p>Nothing of it is stored: an instrument's history says when it is due, and the check that is recorded says that it is
 * done. So no task outlives its reason, whether that was a check, a knock, a new interval or a retirement.
 */
@Service
@Transactional(readOnly = true)
public class DueChecks {

    private final CalibrationService calibrations;
    private final StandardRegister standards;
    private final BusinessProfile business;
    private final Clock clock;

    DueChecks(CalibrationService calibrations, StandardRegister standards, BusinessProfile business, Clock clock) {
        this.calibrations = calibrations;
        this.standards = standards;
        this.business = business;
        this.clock = clock;
    }

    /**
     * What is due on that day or was done on it, what is open first and then by code. Due is what its history wants by the
     * end of the day, and every instrument in use that nothing is known of. A condemned one is not: it is repaired first.
     */
    public List<DueCheck> on(LocalDate day) {
        return on(day, calibrations.histories().values());
    }

    /** The same, of a register that is known already. */
    public List<DueCheck> on(LocalDate day, Collection<CalibrationHistory> register) {
        var work = new Day(day, business.zone(), clock.instant(), standards.all());
        return register.stream()
                .flatMap(history -> work.check(history).stream())
                .sorted(Comparator.comparing(DueCheck::isOpen, Comparator.reverseOrder())
                        .thenComparing(check -> check.instrument().code()))
                .toList();
    }

    /** The pure part: what one day asks of an instrument, by what is known {@code now}. */
    record Day(LocalDate day, ZoneId zone, Instant now, List<StandardView> standards) {

        private record Need(DueCheck.Why why, Optional<LocalDate> dueOn, int intervalDays) {}

        Optional<DueCheck> check(CalibrationHistory history) {
            InstrumentView instrument = history.instrument();
            boolean kitOnItsWord = instrument.kind().isKit() && history.checks().isEmpty();
            if (kitOnItsWord || outOfUse(instrument)) {
                return Optional.empty();
            }
            Instant start = day.atStartOfDay(zone).toInstant();
            Instant last = day.plusDays(1).atStartOfDay(zone).toInstant().minusSeconds(1);
            CalibrationHistory known = history.upTo(now.isBefore(last) ? now : last);
            Optional<Need> still = need(known, last);
            if (still.isPresent() || isCondemned(known.statusAt(last))) {
                return still.map(need -> task(known, need, Optional.empty()));
            }
            Optional<LocalTime> done = known.last()
                    .filter(at -> !at.isBefore(start))
                    .map(at -> at.atZone(zone).toLocalTime());
            return done.flatMap(at -> need(history.upTo(start.minusSeconds(1)), last))
                    .map(need -> task(known, need, done));
        }

        private DueCheck task(CalibrationHistory history, Need need, Optional<LocalTime> done) {
            return new DueCheck(
                    history.instrument(),
                    need.why(),
                    need.dueOn(),
                    need.intervalDays(),
                    ChosenStandard.of(history, standards, day),
                    done);
        }

        private boolean outOfUse(InstrumentView instrument) {
            return instrument.retiredOn().filter(on -> !on.isAfter(day)).isPresent()
                    || instrument.expiresOn().filter(day::isAfter).isPresent();
        }

        private static boolean isCondemned(InstrumentStatus status) {
            return status == InstrumentStatus.CONDEMNED || status == InstrumentStatus.FAILED;
        }

        private Optional<Need> need(CalibrationHistory history, Instant by) {
            InstrumentStatus status = history.statusAt(by);
            NextCheck next = NextCheck.of(history.history(), by.getEpochSecond());
            return switch (status) {
                case CONDEMNED, FAILED -> Optional.empty();
                case SUSPECT -> Optional.of(new Need(DueCheck.Why.SUSPECT, Optional.empty(), next.intervalDays()));
                case NEVER_CHECKED ->
                    Optional.of(new Need(DueCheck.Why.NEVER_CHECKED, Optional.empty(), next.intervalDays()));
                case ZERO_CHECKED_ONLY ->
                    Optional.of(new Need(DueCheck.Why.ZERO_CHECKED_ONLY, Optional.empty(), next.intervalDays()));
                case SOUND, OVERDUE ->
                    status == InstrumentStatus.SOUND && history.lastContradicts()
                            ? Optional.of(new Need(DueCheck.Why.REPEAT, Optional.empty(), next.intervalDays()))
                            : due(next, by);
            };
        }

        private Optional<Need> due(NextCheck next, Instant by) {
            return Optional.ofNullable(next.dueAtEpochSecond())
                    .filter(due -> due <= by.getEpochSecond())
                    .map(due -> LocalDate.ofInstant(Instant.ofEpochSecond(due), zone))
                    .map(due -> new Need(
                            due.isBefore(day) ? DueCheck.Why.OVERDUE : DueCheck.Why.DUE,
                            Optional.of(due),
                            next.intervalDays()));
        }
    }
}
