package app.tankround.rounds;

import app.tankround.accounts.ChangeLog;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.TransactionMemory;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.solver.TravelEstimate;
import app.tankround.schedule.AgreementId;
import app.tankround.schedule.LearnedDurations;
import app.tankround.schedule.LearnedMinutes;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.time.Clock;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** How long things take, as planning reckons: by what was agreed and guessed, or by what was learned. */
@Service
public class RoundTimes {

    /**
     * What trips in one hour of the day took.
     *
     * @param hour in which they began
     * @param trips how many
     * @param ratio of the time they took to the guess
     * @param kilometresPerHour of the road, as reckoned from the straight line
     */
    public record Hour(int hour, int trips, double ratio, double kilometresPerHour) {}

    private final RecordedTrips trips;
    private final LearnedDurations durations;
    private final ChangeLog changes;
    private final RecordLock lock;
    private final JdbcClient jdbc;
    private final Clock clock;

    RoundTimes(
            RecordedTrips trips,
            LearnedDurations durations,
            ChangeLog changes,
            RecordLock lock,
            JdbcClient jdbc,
            Clock clock) {
        this.trips = trips;
        this.durations = durations;
        this.changes = changes;
        this.lock = lock;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    @Transactional(readOnly = true)
    public TimeRules rules() {
        return TransactionMemory.askedOnce(
                this,
                "rules",
                "",
                () -> jdbc.sql("select learned_minutes, learned_travel, confidence, version from time_rules")
                        .query((row, number) -> new TimeRules(
                                row.getBoolean("learned_minutes"),
                                row.getBoolean("learned_travel"),
                                row.getInt("confidence"),
                                row.getInt("version")))
                        .optional()
                        .orElseGet(TimeRules::usual));
    }

    /**
     * Chooses how times are reckoned. Rounds that are planned already keep theirs.
     *
     * @param asked with the version that was shown
     * @throws FieldRefusal if the confidence is outside its range
     * @throws StaleVersion if somebody else chose meanwhile
     */
    @Transactional
    public void choose(TimeRules asked) {
        lock.hold("time rules");
        if (asked.confidence() < TimeRules.LEAST_CONFIDENCE || asked.confidence() > TimeRules.MOST_CONFIDENCE) {
            throw new FieldRefusal(
                    "confidence",
                    "rounds.times.confidence-range",
                    asked.confidence(),
                    TimeRules.LEAST_CONFIDENCE,
                    TimeRules.MOST_CONFIDENCE);
        }
        TimeRules before = rules();
        if (before.version() != asked.version()) {
            throw new StaleVersion("/rounds/times", before, asked);
        }
        if (before.equals(asked)) {
            return;
        }
        UUID id = jdbc.sql("""
                        insert into time_rules (id, only_one, learned_minutes, learned_travel, confidence, version)
                        values (:id, true, :minutes, :travel, :confidence, 1)
                        on conflict (only_one) do update
                        set learned_minutes = excluded.learned_minutes, learned_travel = excluded.learned_travel,
                            confidence = excluded.confidence, version = time_rules.version + 1
                        returning id
                        """)
                .param("id", Uuids.next(clock.instant()))
                .param("minutes", asked.learnedMinutes())
                .param("travel", asked.learnedTravel())
                .param("confidence", asked.confidence())
                .query(UUID.class)
                .single();
        changes.record("time-rules", id, "changed", Map.of("confidence", asked.confidence()));
    }

    /** What was learned of trips, whether planning goes by it or not. */
    @Transactional(readOnly = true)
    public List<Hour> hours() {
        TravelEstimate estimate = TravelEstimate.withDefaults();
        LearnedTravel learned = trips.learned(estimate);
        return learned.hours().stream()
                .map(hour -> new Hour(
                        hour,
                        learned.trips().get(hour),
                        learned.ratios().get(hour),
                        estimate.averageKilometresPerHour() / learned.ratios().get(hour)))
                .toList();
    }

    /** What planning goes by where the travel table says nothing. */
    LearnedTravel travel(TravelEstimate estimate) {
        return rules().learnedTravel() ? trips.learned(estimate) : LearnedTravel.nothing();
    }

    /** How long work on these visits takes as planning reckons, in minutes. */
    ToIntFunction<PlannedVisitView> minutes(Collection<PlannedVisitView> visits) {
        Map<AgreementId, LearnedMinutes> learned =
                rules().learnedMinutes() ? learned(visits) : Map.<AgreementId, LearnedMinutes>of();
        return visit -> Optional.ofNullable(learned.get(visit.agreementId()))
                .map(known -> scaled(known, visit) + visit.besideMinutes())
                .orElse(visit.allMinutes());
    }

    /** A visit keeps the minutes that were agreed when it was made. */
    private static int scaled(LearnedMinutes learned, PlannedVisitView visit) {
        return Math.toIntExact(Math.max(1, Math.round(learned.minutes() * visit.minutes() / learned.agreed())));
    }

    /** What was learned of each agreement that these visits are of. */
    Map<AgreementId, LearnedMinutes> learned(Collection<PlannedVisitView> visits) {
        return durations.of(visits.stream().map(PlannedVisitView::agreementId).collect(Collectors.toSet()));
    }
}
