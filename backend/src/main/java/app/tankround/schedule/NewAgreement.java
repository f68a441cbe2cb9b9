package app.tankround.schedule;

import app.tankround.tanks.WaterSystemId;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What somebody asks to be agreed; {@link Agreements} checks it.
 *
 * @param code how the office calls it; unique
 * @param minutes agreed work on site at each visit, 1 to 1440
 * @param price of one visit in the business's currency, 0 to 1,000,000, with no more decimals than the currency has
 * @param planFrom the first day due visits are made for. Empty means of a new agreement the period under way, so that one
 *     taken over from elsewhere does not come with years of overdue visits, and of a change today
 */
public record NewAgreement(
        String code,
        WaterSystemId waterSystemId,
        VisitRhythm rhythm,
        int minutes,
        BigDecimal price,
        List<TaskView> tasks,
        Optional<LocalDate> planFrom) {

    /** Of one visit, in the currency of the business. */
    public static final BigDecimal HIGHEST_PRICE = new BigDecimal("1000000");

    public NewAgreement {
        tasks = List.copyOf(tasks);
    }

    /** Tasks that should be done more often than the visits come, and that nobody does in between. */
    public List<IntervalGap> tasksOftenerThanVisits() {
        return IntervalGap.of(tasks, rhythm.gaps().map(VisitRhythm.Gaps::longest));
    }

    /** With one visit in so many weeks; see {@link VisitRhythm#oneInWeeks}. */
    public NewAgreement(
            String code,
            WaterSystemId waterSystemId,
            int everyWeeks,
            Set<DayOfWeek> weekdays,
            LocalDate validFrom,
            Optional<LocalDate> validUntil,
            int minutes,
            BigDecimal price,
            List<TaskView> tasks,
            Optional<LocalDate> planFrom) {
        this(
                code,
                waterSystemId,
                VisitRhythm.oneInWeeks(everyWeeks, weekdays, validFrom, validUntil),
                minutes,
                price,
                tasks,
                planFrom);
    }
}
