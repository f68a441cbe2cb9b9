package app.tankround.rounds.solver;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.rounds.solver.FleetReasons.Constraint;
import app.tankround.rounds.solver.FleetReasons.Reason;
import app.tankround.rounds.solver.FleetReasons.Shortage;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

class FleetReasonsTests {

    private static final int SEEDS = 400;

    @Test
    void whatIsMissingAdmitsTheStopAndNothingLessDoes() {
        Map<Constraint, Integer> seen = new EnumMap<>(Constraint.class);
        int fitting = 0;
        int reloading = 0;
        for (int seed = 0; seed < SEEDS; seed++) {
            FleetProblem problem = FleetProblems.random(seed, 3 + seed % 5);
            FleetPlan plan = FleetPlanner.withDefaults().solve(problem, seed, SearchBudget.iterations(200));
            Map<Integer, List<Integer>> orders = new HashMap<>();
            plan.rounds().forEach(round -> orders.put(round.shift(), round.order()));
            for (int stop : plan.unplaced()) {
                for (Reason reason : new FleetReasons(problem, orders).of(stop)) {
                    List<Integer> others = orders.getOrDefault(reason.shift(), List.of());
                    if (reason.shortages().isEmpty()) {
                        assertThat(admits(problem, reason, others, stop)).isTrue();
                        assertThat(new FleetChecker(problem).complaints(reason.shift(), reason.order()))
                                .isEmpty();
                        reloading += reason.withoutReload().isEmpty() ? 0 : 1;
                        fitting++;
                    } else if (reason.shortages().size() == 1) {
                        Shortage missing = reason.shortages().getFirst();
                        assertThat(admits(problem, reason, others, stop)).isFalse();
                        if (missing.amount() > 0 && missing.constraint() != Constraint.DAY) {
                            seen.merge(missing.constraint(), 1, Integer::sum);
                            assertThat(admitsWith(problem, reason, others, stop, missing.amount()))
                                    .as("seed %d: %s", seed, reason)
                                    .isTrue();
                            assertThat(admitsWith(problem, reason, others, stop, missing.amount() - 1))
                                    .as("seed %d: %s", seed, reason)
                                    .isFalse();
                        }
                    }
                }
            }
        }
        // The comparison is worth something only if each constraint stands against something now and then.
        assertThat(fitting).isPositive();
        assertThat(reloading).isPositive();
        assertThat(seen.keySet())
                .contains(
                        Constraint.WINDOW,
                        Constraint.OTHER_WINDOW,
                        Constraint.SHIFT_END,
                        Constraint.MASS,
                        Constraint.ROOM);
    }

    @Test
    void namesWhatCannotBeChangedByDegrees() {
        FleetProblem problem = FleetProblems.random(1, 3);
        FleetStop stop = problem.stops().getFirst();
        FleetStop elsewhere = new FleetStop(
                60,
                0,
                FleetStop.LAST_SECOND,
                Cargo.NONE,
                Cargo.NONE,
                Set.of("diving"),
                stop.arrivesAs(),
                stop.leavesAs(),
                1,
                List.of(List.of(5), List.of(7)),
                new StopWishes(List.of(), 1, null, "", 0));
        VanShift van = new VanShift(0, 0, 0, 80_000, 80_000, new Cargo(1, 1), Set.of());
        FleetProblem one = new FleetProblem(
                List.of(elsewhere), List.of(van, van), (from, to) -> new TravelLeg(60, 60), problem.weights());
        assertThat(new FleetReasons(one, Map.of()).of(0).getFirst().shortages())
                .containsExactly(
                        new Shortage(Constraint.DAY, 5),
                        new Shortage(Constraint.SKILL, 0),
                        new Shortage(Constraint.LOCKED, 0));
    }

    private static boolean admitsWith(
            FleetProblem problem, Reason reason, List<Integer> others, int stop, long amount) {
        Constraint constraint = reason.shortages().getFirst().constraint();
        List<FleetStop> stops = new ArrayList<>(problem.stops());
        List<VanShift> shifts = new ArrayList<>(problem.shifts());
        VanShift van = shifts.get(reason.shift());
        int more = Math.toIntExact(amount);
        switch (constraint) {
            case WINDOW -> stops.set(stop, closing(stops.get(stop), more));
            // All but the stop itself, since more than one of them may be as late.
            case OTHER_WINDOW ->
                others.stream()
                        .filter(each -> each != VanRound.RELOAD)
                        .forEach(other -> stops.set(other, closing(stops.get(other), more)));
            case SHIFT_END -> shifts.set(reason.shift(), with(van, van.latestEndSecond() + more, van.capacity()));
            case MASS ->
                shifts.set(
                        reason.shift(),
                        with(
                                van,
                                van.latestEndSecond(),
                                new Cargo(
                                        van.capacity().grams() + more,
                                        van.capacity().millilitres())));
            case ROOM ->
                shifts.set(
                        reason.shift(),
                        with(
                                van,
                                van.latestEndSecond(),
                                new Cargo(van.capacity().grams(), van.capacity().millilitres() + more)));
            default -> throw new IllegalArgumentException(constraint.toString());
        }
        return admits(
                new FleetProblem(
                        stops,
                        shifts,
                        problem.travel(),
                        problem.weights(),
                        problem.disinfection(),
                        Evenness.NONE,
                        problem.reload()),
                reason,
                others,
                stop);
    }

    /** Whether any place of that trip will do. */
    private static boolean admits(FleetProblem problem, Reason reason, List<Integer> others, int stop) {
        int shift = reason.shift();
        int day = problem.shifts().get(shift).day();
        if (problem.stops().get(stop).dayChoices().stream().noneMatch(days -> days.contains(day))) {
            return false;
        }
        FleetChecker checker = new FleetChecker(problem);
        for (int position = 0; position <= others.size(); position++) {
            if (1 + Collections.frequency(others.subList(0, position), VanRound.RELOAD) != reason.trip()) {
                continue;
            }
            for (int beside = 0; beside < 4; beside++) {
                List<Integer> order = new ArrayList<>(others);
                if (beside >= 2) {
                    order.add(position, VanRound.RELOAD);
                }
                order.add(position, stop);
                if (beside % 2 == 1) {
                    order.add(position, VanRound.RELOAD);
                }
                if (checker.complaints(shift, order).isEmpty()) {
                    return true;
                }
            }
        }
        return false;
    }

    private static FleetStop closing(FleetStop stop, int later) {
        return new FleetStop(
                stop.serviceSeconds(),
                stop.opensSecond(),
                Math.min(FleetStop.LAST_SECOND, stop.closesSecond() + later),
                stop.delivered(),
                stop.collected(),
                stop.skills(),
                stop.arrivesAs(),
                stop.leavesAs(),
                stop.unplacedPenalty(),
                stop.dayChoices(),
                stop.wishes());
    }

    private static VanShift with(VanShift van, int latestEnd, Cargo capacity) {
        return new VanShift(
                van.day(),
                van.depot(),
                van.returnsTo(),
                van.startSecond(),
                van.regularEndSecond(),
                latestEnd,
                capacity,
                van.skills(),
                van.crew(),
                van.startsSick(),
                van.out(),
                van.rest());
    }
}
