package app.tankround.rounds;

import app.tankround.accounts.PersonId;
import app.tankround.rounds.RoundService.Departure;
import app.tankround.schedule.DueCheck;
import app.tankround.schedule.DueChecks;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * The checks of instruments that are tasks of a round, each of one round only.
 *
 * <p>Who carries an instrument checks it, on the first round of the day. One that nobody carries lies at the depot, where
 * every van starts; whoever leaves first checks it, so that it can be trusted by all who leave after. What somebody carries
 * who has no round that day waits for the next one.
 */
@Service
@Transactional(readOnly = true)
public class RoundChecks {

    private static final Comparator<Departure> FIRST_TO_LEAVE =
            Comparator.comparing(Departure::leavesAt).thenComparing(Departure::code);

    private final DueChecks dueChecks;
    private final RoundService rounds;

    RoundChecks(DueChecks dueChecks, RoundService rounds) {
        this.dueChecks = dueChecks;
        this.rounds = rounds;
    }

    /** The round as it is given, stored or not; what is still to be done first, then by code. */
    public List<DueCheck> of(RoundView round) {
        return among(dueChecks.on(round.date()), round);
    }

    /** The same, of checks of that day that are known already. */
    public List<DueCheck> among(List<DueCheck> due, RoundView round) {
        if (due.isEmpty()) {
            return due;
        }
        Departure own = Departure.of(round);
        List<Departure> ofDay = Stream.concat(
                        Stream.of(own),
                        rounds.departures(round.date()).stream()
                                .filter(other -> !other.round().equals(own.round())))
                .toList();
        boolean first = leavesFirst(own, ofDay, any -> true);
        Optional<PersonId> technician = own.technician();
        boolean firstOfTechnician = technician.isPresent()
                && leavesFirst(own, ofDay, other -> other.technician().equals(technician));
        return due.stream()
                .filter(check -> check.instrument().holder().isEmpty()
                        ? first
                        : firstOfTechnician && check.instrument().holder().equals(technician))
                .toList();
    }

    private static boolean leavesFirst(Departure own, List<Departure> ofDay, Predicate<Departure> among) {
        return ofDay.stream()
                .filter(among)
                .min(FIRST_TO_LEAVE)
                .filter(own::equals)
                .isPresent();
    }
}
