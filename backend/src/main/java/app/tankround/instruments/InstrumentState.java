package app.tankround.instruments;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.NextCheck;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;

/**
 * Whether an instrument can be trusted at an instant, and why.
 *
 * @param code RETIRED, EXPIRED, KIT, or what its checks say: SOUND, OVERDUE, SUSPECT, CONDEMNED, ZERO_CHECKED_ONLY,
 *     NEVER_CHECKED, NO_CHECK_COUNTS if it was held in standards but none of that counts, REPEAT if it would be sound but for
 *     the readings of its last check, which contradict each other
 * @param lastCheck when it was last held in any standard
 * @param lastGood when it last passed in the range it is used in
 * @param nextDue when the next check is due; empty if it never passed in that range, has failed since or is to be repeated, so that it is due now
 * @param shown what it showed at the worst point of the check that it failed, else of its last, before adjusting
 * @param expected what it should have shown there
 */
public record InstrumentState(
        String code,
        Optional<Instant> lastCheck,
        Optional<Instant> lastGood,
        Optional<Instant> nextDue,
        Optional<BigDecimal> shown,
        Optional<BigDecimal> expected) {

    /** @param today the business's day at that instant */
    public static InstrumentState of(CalibrationHistory history, Instant now, LocalDate today) {
        InstrumentView instrument = history.instrument();
        Optional<CheckPoint> worst = history.failed()
                .or(() -> history.checks().reversed().stream().findFirst())
                .map(CalibrationCheck::worst);
        int decimals = Math.max(0, instrument.resolution().stripTrailingZeros().scale());
        String code = code(history, now, today);
        return new InstrumentState(
                code,
                history.last(),
                history.lastGoodBefore(now.plusSeconds(1)),
                history.standingAt(now) == Standing.IN_USE && !code.equals("REPEAT")
                        ? Optional.ofNullable(NextCheck.of(history.history(), now.getEpochSecond())
                                        .dueAtEpochSecond())
                                .map(Instant::ofEpochSecond)
                        : Optional.empty(),
                worst.map(point -> rounded(point.meanAsFound(), decimals + 1)),
                worst.map(point -> rounded(point.trueValue(), decimals + 1)));
    }

    /** Whether somebody is needed before it is used again. */
    public boolean isNeeded() {
        return switch (code) {
            case "SUSPECT", "CONDEMNED", "NEVER_CHECKED", "NO_CHECK_COUNTS", "ZERO_CHECKED_ONLY", "EXPIRED" -> true;
            default -> false;
        };
    }

    /** Name of the drawn mark that goes with the word. */
    public String icon() {
        return switch (code) {
            case "SOUND", "KIT" -> "done";
            case "OVERDUE", "REPEAT" -> "late";
            case "RETIRED" -> "waiting";
            default -> "untrusted";
        };
    }

    private static String code(CalibrationHistory history, Instant now, LocalDate today) {
        InstrumentView instrument = history.instrument();
        if (instrument.retiredOn().filter(day -> !day.isAfter(today)).isPresent()) {
            return "RETIRED";
        }
        if (instrument.expiresOn().filter(today::isAfter).isPresent()) {
            return "EXPIRED";
        }
        if (instrument.kind().isKit() && history.checks().isEmpty()) {
            return "KIT";
        }
        InstrumentStatus status = history.statusAt(now);
        if (status == InstrumentStatus.NEVER_CHECKED && !history.checks().isEmpty()) {
            return "NO_CHECK_COUNTS";
        }
        return status == InstrumentStatus.SOUND && history.lastContradicts() ? "REPEAT" : status.name();
    }

    private static BigDecimal rounded(double value, int decimals) {
        return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN);
    }
}
