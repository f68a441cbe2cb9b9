package app.tankround.health;

import app.tankround.accounts.PersonView;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopDemand;
import app.tankround.units.Mass;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.springframework.beans.factory.ObjectProvider;
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
    private final RoundService rounds;
    private final ObjectProvider<StopDemand> demand;

    FirstPage(
            HealthReview health,
            HealthQueries queries,
            Followups followups,
            RoundService rounds,
            ObjectProvider<StopDemand> demand) {
        this.health = health;
        this.queries = queries;
        this.followups = followups;
        this.rounds = rounds;
        this.demand = demand;
    }

    @Transactional(readOnly = true)
    public Overview overview() {
        LocalDate today = health.today();
        return new Overview(
                health.review(),
                followups.open(),
                rounds.on(today).stream().map(this::van).toList(),
                queries
                        .checksDue(
                                today,
                                today.plusDays(CHECKS_AHEAD_DAYS),
                                health.zone().getId())
                        .stream()
                        .map(row -> new CheckDue(
                                row.code(),
                                row.name(),
                                row.due(),
                                row.due().isBefore(today),
                                "/instruments/" + row.id()))
                        .toList());
    }

    private VanToday van(RoundView round) {
        Optional<Mass> load = Optional.ofNullable(demand.getIfAvailable()).map(known -> known.departureMass(round));
        boolean tooHeavy = load.filter(
                        mass -> mass.kilograms() > round.van().payload().kilograms())
                .isPresent();
        return new VanToday(round, round.technician().map(PersonView::name).orElse(""), load, tooHeavy);
    }

    /** Everything on the page. */
    public record Overview(
            HealthReview.Review review, List<FollowupView> followups, List<VanToday> vans, List<CheckDue> checks) {

        public Overview {
            followups = List.copyOf(followups);
            vans = List.copyOf(vans);
            checks = List.copyOf(checks);
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
     * @param load mass at departure, people and tools included, where it is known
     * @param tooHeavy whether that is more than the van may carry
     */
    public record VanToday(RoundView round, String technician, Optional<Mass> load, boolean tooHeavy) {}

    /** An instrument that must be checked, or a kit that must be replaced. */
    public record CheckDue(String code, String name, LocalDate due, boolean overdue, String href) {}
}
