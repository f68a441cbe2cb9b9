package app.tankround.rounds;

import app.tankround.accounts.Crews;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.Roster;
import app.tankround.accounts.VanView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitView;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.TemporalAdjusters;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What the coming weeks need in hours. */
@Service
public class WeekNeeds {

    private static final int DAYS_PER_WEEK = 7;
    private static final int SECONDS_PER_MINUTE = 60;
    /** Until there are rounds to learn from; common practice, no source. */
    private static final double DRIVING_MINUTES_PER_STOP = 15;

    private final RoundTables roundTables;
    private final PlanningSettings terms;
    private final DueVisits dueVisits;
    private final Fleet fleet;
    private final Crews crews;

    WeekNeeds(RoundTables roundTables, PlanningSettings terms, DueVisits dueVisits, Fleet fleet, Crews crews) {
        this.roundTables = roundTables;
        this.terms = terms;
        this.dueVisits = dueVisits;
        this.fleet = fleet;
        this.crews = crews;
    }

    /**
     * What a week needs and what there is, in minutes.
     *
     * @param monday its first day
     * @param work agreed minutes of the visits due in it
     * @param driving guessed from the rounds of the last eight weeks
     * @param available of all vans while they are out, breaks taken off
     */
    public record WeekHours(LocalDate monday, int visits, int work, int driving, int available) {

        public int needed() {
            return work + driving;
        }

        public boolean fits() {
            return needed() <= available;
        }
    }

    /** The next eight weeks, this one first; what is overdue counts in this one. */
    @Transactional
    public List<WeekHours> hours() {
        LocalDate today = dueVisits.today();
        LocalDate monday = today.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
        double drive = roundTables
                .drivingMinutesPerStop(today.minusWeeks(WeekPlans.MOST_WEEKS), today.plusDays(1))
                .orElse(DRIVING_MINUTES_PER_STOP);
        List<VanView> vans = fleet.vans();
        Roster roster = crews.roster(today);
        PlanningTerms kept = terms.current();
        Map<LocalDate, List<PlannedVisitView>> byWeek =
                dueVisits.dueOn(monday.plusWeeks(WeekPlans.MOST_WEEKS).minusDays(1)).stream()
                        .collect(Collectors.groupingBy(visit -> visit.dueOn().isBefore(monday)
                                ? monday
                                : visit.dueOn().with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY))));
        return IntStream.range(0, WeekPlans.MOST_WEEKS)
                .mapToObj(monday::plusWeeks)
                .map(week -> {
                    List<PlannedVisitView> visits = byWeek.getOrDefault(week, List.of());
                    long stops = visits.stream()
                            .map(visit -> List.of(visit.siteId(), visit.dueOn()))
                            .distinct()
                            .count();
                    return new WeekHours(
                            week,
                            visits.size(),
                            visits.stream()
                                    .mapToInt(PlannedVisitView::allMinutes)
                                    .sum(),
                            (int) Math.round(stops * drive),
                            available(vans, roster, kept, week));
                })
                .toList();
    }

    private static int available(List<VanView> vans, Roster roster, PlanningTerms terms, LocalDate monday) {
        return monday.datesUntil(monday.plusDays(DAYS_PER_WEEK))
                .flatMap(day -> vans.stream().map(van -> roster.on(van, day)))
                .filter(Roster.Day::drives)
                .flatMap(day -> day.hours().orElseThrow().halves().stream())
                .mapToInt(hours -> terms.withoutBreak(
                        (hours.until().toSecondOfDay() - hours.from().toSecondOfDay()) / SECONDS_PER_MINUTE))
                .sum();
    }
}
