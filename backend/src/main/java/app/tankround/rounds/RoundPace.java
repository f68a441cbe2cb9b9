package app.tankround.rounds;

import app.tankround.rounds.solver.TimeWindow;
import java.util.List;
import java.util.Optional;

/**
 * What the times of a round follow from, for whoever works them out anew where the server cannot be asked.
 *
 * @param stops in their order
 * @param seconds on the road, from the row to the column: first the depot, then the stops in their order
 * @param disinfectionMinutes what it takes after a stop that was left sick before a clean one
 * @param loadingMinutes at the depot, between coming back from the round before and leaving again
 * @param leavesSick whether the van was at something sick before it leaves
 * @param rest the crew's break; empty for a day without any
 */
public record RoundPace(
        List<AtStop> stops,
        List<List<Integer>> seconds,
        int disinfectionMinutes,
        int loadingMinutes,
        boolean leavesSick,
        Optional<Break> rest) {

    public RoundPace {
        stops = List.copyOf(stops);
        seconds = seconds.stream().map(List::copyOf).toList();
    }

    /**
     * Wherever the crew is by then, it stops for that long.
     *
     * @param atMinute of the local day
     */
    public record Break(int atMinute, int minutes) {}

    /**
     * @param minutes from arrival to the end of the work
     * @param opensAt minute of the local day at which work may start at the earliest; empty for all day, as is {@code closesAt}
     * @param closesAt minute at which work has to start at the latest
     * @param clean whether the crew has to arrive clean
     * @param leftSick whether it leaves something sick behind
     */
    public record AtStop(
            StopId id,
            int minutes,
            Optional<Integer> opensAt,
            Optional<Integer> closesAt,
            boolean clean,
            boolean leftSick) {

        static AtStop of(RoundTiming.Work work) {
            Optional<TimeWindow> window = Optional.ofNullable(work.window());
            return new AtStop(
                    work.stop().id(),
                    work.minutes(),
                    window.map(TimeWindow::fromMinute),
                    window.map(TimeWindow::untilMinute),
                    !work.cleanest().isSick(),
                    work.sickest().isSick());
        }
    }
}
