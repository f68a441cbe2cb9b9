package app.tankround.rounds.solver;

import app.tankround.tanks.InfectionClass;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * One site to be visited, on one day or on several days that belong together. Times are in seconds of day.
 *
 * @param serviceSeconds work on site, 0 to 86 400 s
 * @param opensSecond from when work may start, 0 to 172 800
 * @param closesSecond by when work must start, from {@code opensSecond} to 172 800; this is never broken
 * @param delivered what each visit takes out of the van
 * @param collected what each visit puts into the van, such as waste water
 * @param skills what the van's crew must have
 * @param arrivesAs class of the cleanest system looked after here: what the crew must still be clean enough for
 * @param leavesAs class of the sickest system looked after here: what the crew carries on from here
 * @param unplacedPenalty cost of leaving the stop out, in the unit of {@link FleetWeights}, 0 to 10^12
 * @param dayChoices the days on which it may be visited: exactly one of these lists is kept, with a visit on each of its
 *     days; at least one list, each of at least one day, 0 to 399, and none twice
 * @param wishes what would be better, and what is settled
 */
public record FleetStop(
        int serviceSeconds,
        int opensSecond,
        int closesSecond,
        Cargo delivered,
        Cargo collected,
        Set<String> skills,
        InfectionClass arrivesAs,
        InfectionClass leavesAs,
        long unplacedPenalty,
        List<List<Integer>> dayChoices,
        StopWishes wishes) {

    static final int LAST_SECOND = 172_800;
    static final int LAST_DAY = 399;

    private static final int MAX_SERVICE_SECONDS = 86_400;
    private static final long MAX_PENALTY = 1_000_000_000_000L;

    /** Refuses, with {@link IllegalArgumentException}, values outside the ranges above and a stop left cleaner than it was reached. */
    public FleetStop {
        skills = Set.copyOf(skills);
        dayChoices = dayChoices.stream().map(List::copyOf).toList();
        if (serviceSeconds < 0 || serviceSeconds > MAX_SERVICE_SECONDS) {
            throw new IllegalArgumentException("Service must be 0 to 86400 seconds, not " + serviceSeconds);
        }
        if (opensSecond < 0 || closesSecond < opensSecond || closesSecond > LAST_SECOND) {
            throw new IllegalArgumentException(
                    "A window must be within 0 to 172800 seconds and end after it starts, not " + opensSecond + " to "
                            + closesSecond);
        }
        if (leavesAs.compareTo(arrivesAs) < 0) {
            throw new IllegalArgumentException(
                    "The sickest system (" + leavesAs + ") cannot be cleaner than the cleanest (" + arrivesAs + ")");
        }
        if (unplacedPenalty < 0 || unplacedPenalty > MAX_PENALTY) {
            throw new IllegalArgumentException("The penalty must be 0 to 10^12, not " + unplacedPenalty);
        }
        if (dayChoices.isEmpty() || !dayChoices.stream().allMatch(FleetStop::isChoice)) {
            throw new IllegalArgumentException("Each choice of days must name one day or more, none twice, each 0 to "
                    + LAST_DAY + ": " + dayChoices);
        }
        if (!wishes.choiceCosts().isEmpty() && wishes.choiceCosts().size() != dayChoices.size()) {
            throw new IllegalArgumentException(
                    "Each choice of days must have its cost: " + dayChoices + ", " + wishes.choiceCosts());
        }
    }

    long choiceCost(int choice) {
        return wishes.choiceCosts().isEmpty() ? 0 : wishes.choiceCosts().get(choice);
    }

    /** A stop of which nothing else is wished. */
    public FleetStop(
            int serviceSeconds,
            int opensSecond,
            int closesSecond,
            Cargo delivered,
            Cargo collected,
            Set<String> skills,
            InfectionClass arrivesAs,
            InfectionClass leavesAs,
            long unplacedPenalty,
            List<List<Integer>> dayChoices) {
        this(
                serviceSeconds,
                opensSecond,
                closesSecond,
                delivered,
                collected,
                skills,
                arrivesAs,
                leavesAs,
                unplacedPenalty,
                dayChoices,
                StopWishes.NONE);
    }

    private static boolean isChoice(List<Integer> days) {
        return !days.isEmpty()
                && new HashSet<>(days).size() == days.size()
                && days.stream().allMatch(day -> day >= 0 && day <= LAST_DAY);
    }
}
