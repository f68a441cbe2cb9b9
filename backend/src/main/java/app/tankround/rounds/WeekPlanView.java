package app.tankround.rounds;

import app.tankround.accounts.VanView;
import app.tankround.clients.SiteView;
import app.tankround.schedule.PlannedVisitId;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.zip.CRC32C;

/**
 * A plan for weeks of rounds.
 *
 * @param number counted up; a later plan has a higher one
 * @param seed together with {@code tries} and {@code tried} it repeats the search
 * @param tries how many plans are to be tried
 * @param tried how many were, up to when it ended or was stopped
 * @param cost in cents
 * @param stops by day, van and position
 */
public record WeekPlanView(
        WeekPlanId id,
        long number,
        LocalDate firstDay,
        int weeks,
        long seed,
        long tries,
        long tried,
        State state,
        int unplaced,
        long cost,
        List<Stop> stops) {

    public WeekPlanView {
        stops = List.copyOf(stops);
    }

    /** What has become of a plan. */
    public enum State {
        /** It is being searched for. */
        RUNNING,
        /** It can be accepted, as long as nobody changes a round. */
        READY,
        /** It has made the rounds. */
        ACCEPTED
    }

    /**
     * One site on one van's day.
     *
     * @param trip on which of its rounds of that day, the first being 1
     * @param position among all that the van visits on that day, 1 for the first
     */
    public record Stop(
            LocalDate day,
            VanView van,
            int trip,
            int position,
            SiteView site,
            LocalTime starts,
            LocalTime departs,
            List<PlannedVisitId> visits) {

        public Stop {
            visits = List.copyOf(visits);
        }
    }

    /** Tells this state of the plan from every other: what is visited when, by whom and in which order. */
    public String stamp() {
        CRC32C sum = new CRC32C();
        stops.forEach(stop -> sum.update((stop.day() + " " + stop.van().id() + " " + stop.trip() + " "
                        + stop.site().id() + " " + stop.visits())
                .getBytes(StandardCharsets.UTF_8)));
        return Long.toHexString(sum.getValue());
    }

    /** The first day after it. */
    public LocalDate until() {
        return firstDay.plusWeeks(weeks);
    }

    /** How much of the search is done, in percent. */
    public int percent() {
        return (int) Math.min(100, 100 * tried / tries);
    }
}
