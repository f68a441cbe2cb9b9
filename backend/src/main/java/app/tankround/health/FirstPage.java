package app.tankround.health;

import app.tankround.accounts.PersonView;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopDemand;
import app.tankround.schedule.DueChecks;
import app.tankround.socks.SockForecast;
import app.tankround.socks.SockOutlook;
import app.tankround.units.Mass;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What the owner and the office see first. */
@Service
public class FirstPage {

    /** A week ahead a check can still be fitted in; common practice, no source. */
    private static final int CHECKS_AHEAD_DAYS = 7;

    private final HealthReview health;
    private final HealthQueries queries;
    private final Followups followups;
    private final DueChecks dueChecks;
    private final RoundService rounds;
    private final StopDemand demand;
    private final SockOutlook socks;

    FirstPage(
            HealthReview health,
            HealthQueries queries,
            Followups followups,
            DueChecks dueChecks,
            RoundService rounds,
            StopDemand demand,
            SockOutlook socks) {
        this.health = health;
        this.queries = queries;
        this.followups = followups;
        this.dueChecks = dueChecks;
        this.rounds = rounds;
        this.demand = demand;
        this.socks = socks;
    }

    /** Due visits of the days ahead are made on the way if they were not yet. */
    @Transactional
    public Overview overview() {
        LocalDate today = health.today();
        return new Overview(
                health.review(),
                followups.open(),
                vans(rounds.on(today)),
                checks(today, today.plusDays(CHECKS_AHEAD_DAYS)),
                socks.weekAhead());
    }

    /** What no date is known for is due today. */
    private List<CheckDue> checks(LocalDate today, LocalDate until) {
        Stream<CheckDue> checked = dueChecks.on(until).stream()
                .map(check -> new CheckDue(
                        check.instrument().code(),
                        check.instrument().name(),
                        check.dueOn().orElse(today),
                        check.dueOn().filter(today::isAfter).isPresent(),
                        "/instruments/" + check.instrument().id()));
        Stream<CheckDue> replaced = queries.expiring(today, until).stream()
                .map(row -> new CheckDue(
                        row.code(),
                        row.name(),
                        row.lastDay(),
                        row.lastDay().isBefore(today),
                        "/instruments/" + row.id()));
        return Stream.concat(checked, replaced)
                .sorted(Comparator.comparing(CheckDue::due).thenComparing(CheckDue::code))
                .toList();
    }

    private List<VanToday> vans(List<RoundView> ofDay) {
        List<Mass> loads = demand.departures(ofDay);
        return IntStream.range(0, ofDay.size())
                .mapToObj(at -> van(ofDay.get(at), loads.get(at)))
                .toList();
    }

    private static VanToday van(RoundView round, Mass load) {
        boolean tooHeavy = load.kilograms() > round.van().payload().kilograms();
        return new VanToday(round, round.technician().map(PersonView::name).orElse(""), load, tooHeavy);
    }

    /** Everything on the page. */
    public record Overview(
            HealthReview.Review review,
            List<FollowupView> followups,
            List<VanToday> vans,
            List<CheckDue> checks,
            List<SockForecast> socks) {

        public Overview {
            followups = List.copyOf(followups);
            vans = List.copyOf(vans);
            checks = List.copyOf(checks);
            socks = List.copyOf(socks);
        }

        public long stops() {
            return vans.stream().mapToLong(van -> van.round().stops().size()).sum();
        }

        public long stopsDone() {
            return vans.stream()
                    .flatMap(van -> van.round().stops().stream())
                    .filter(stop -> stop.finishedAt().isPresent())
                    .count();
        }

        public long vansOut() {
            return vans.stream().filter(van -> van.round().started()).count();
        }
    }

    /**
     * A van's round of today.
     *
     * @param load mass at departure, people and tools included
     * @param tooHeavy whether that is more than the van may carry
     */
    public record VanToday(RoundView round, String technician, Mass load, boolean tooHeavy) {}

    /** An instrument that must be checked, or a kit that must be replaced. */
    public record CheckDue(String code, String name, LocalDate due, boolean overdue, String href) {}
}
