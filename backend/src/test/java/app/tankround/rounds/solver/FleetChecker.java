package app.tankround.rounds.solver;

import app.tankround.tanks.InfectionClass;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * Works a plan for a fleet out again straight from the problem, sharing no code with the planner: clock in hand, van
 * loaded in the morning and weighed on every leg, every pair of stops compared for infection.
 */
final class FleetChecker {

    private static final Set<InfectionClass> SICK =
            EnumSet.of(InfectionClass.QUARANTINE, InfectionClass.SUSPECTED, InfectionClass.TREATMENT);

    private final FleetProblem problem;

    FleetChecker(FleetProblem problem) {
        this.problem = problem;
    }

    /** All that is wrong with a plan, its own figures included; empty if nothing. */
    List<String> complaints(FleetPlan plan) {
        List<String> wrong = new ArrayList<>();
        Set<Integer> shifts = new HashSet<>();
        long driving = 0;
        long metres = 0;
        long overtime = 0;
        int disinfections = 0;
        long wishes = 0;
        for (VanRound round : plan.rounds()) {
            List<Integer> order = round.stops().stream().map(PlannedStop::stop).toList();
            if (order.isEmpty() || !shifts.add(round.shift())) {
                wrong.add("shift " + round.shift() + " is planned twice or for nothing");
            }
            wrong.addAll(complaints(round.shift(), order));
            wrong.addAll(timesToldWrong(round));
            VanShift shift = problem.shifts().get(round.shift());
            driving += driving(shift, order);
            metres += metres(shift, order);
            overtime += Math.max(0, returns(shift, order) - shift.regularEndSecond());
            disinfections += disinfections(shift, order);
            wishes += wishes(round.shift(), order);
        }
        wishes += choices(plan);
        wishes += uneven(plan.rounds().stream()
                .collect(Collectors.toMap(
                        VanRound::shift,
                        round -> round.stops().stream().map(PlannedStop::stop).toList())));
        wrong.addAll(daysWrong(plan));
        long penalty = 0;
        for (int stop : plan.unplaced()) {
            penalty += problem.stops().get(stop).unplacedPenalty();
        }
        FleetWeights weights = problem.weights();
        long total = driving * weights.perDrivingSecond()
                + metres * weights.perMetre()
                + overtime * weights.perOvertimeSecond()
                + plan.rounds().size() * weights.perRound()
                + disinfections * disinfectionCost()
                + wishes
                + penalty;
        FleetCost cost =
                new FleetCost(driving, metres, overtime, plan.rounds().size(), disinfections, wishes, penalty, total);
        if (!cost.equals(plan.cost())) {
            wrong.add("cost is " + cost + ", told as " + plan.cost());
        }
        return wrong;
    }

    /** What is wrong with one shift's order of stops. */
    List<String> complaints(int shiftIndex, List<Integer> order) {
        VanShift shift = problem.shifts().get(shiftIndex);
        List<String> wrong = new ArrayList<>();
        List<Long> begins = begins(shift, order);
        int here = TravelTimes.depot(shift.depot());
        for (int k = 0; k < order.size(); k++) {
            int stop = order.get(k);
            FleetStop visited = problem.stops().get(stop);
            long clock = begins.get(k);
            if (!problem.travel().drivable(here, stop)) {
                wrong.add("there is no way from " + here + " to " + stop);
            }
            Integer only = visited.wishes().onlyShift();
            if (only != null && only != shiftIndex) {
                wrong.add("stop " + stop + " was moved from shift " + only);
            }
            if (clock > visited.closesSecond()) {
                wrong.add("stop " + stop + " begins at " + clock + ", closes at " + visited.closesSecond());
            }
            here = stop;
            for (String skill : visited.skills()) {
                if (!shift.skills().contains(skill)) {
                    wrong.add("stop " + stop + " needs " + skill);
                }
            }
        }
        if (returns(shift, order) > shift.latestEndSecond()) {
            wrong.add("shift " + shiftIndex + " ends at " + returns(shift, order));
        }
        wrong.addAll(overloads(shift, order));
        if (!order.isEmpty() && !problem.travel().drivable(here, TravelTimes.depot(shift.returnsTo()))) {
            wrong.add("there is no way back from " + here);
        }
        if (problem.disinfection() != null) {
            return wrong;
        }
        if (shift.startsSick()) {
            order.stream()
                    .filter(stop -> !SICK.contains(problem.stops().get(stop).arrivesAs()))
                    .forEach(stop -> wrong.add("stop " + stop + " is clean and the crew is not"));
        }
        for (int early = 0; early < order.size(); early++) {
            for (int late = early + 1; late < order.size(); late++) {
                FleetStop first = problem.stops().get(order.get(early));
                FleetStop then = problem.stops().get(order.get(late));
                if (SICK.contains(first.leavesAs()) && !SICK.contains(then.arrivesAs())) {
                    wrong.add("stop " + order.get(late) + " is clean and follows sick stop " + order.get(early));
                }
            }
        }
        return wrong;
    }

    private List<String> overloads(VanShift shift, List<Integer> order) {
        List<String> wrong = new ArrayList<>();
        long grams = 0;
        long millilitres = 0;
        for (int stop : order) {
            grams += problem.stops().get(stop).delivered().grams();
            millilitres += problem.stops().get(stop).delivered().millilitres();
        }
        for (int leg = 0; leg <= order.size(); leg++) {
            if (leg > 0) {
                FleetStop left = problem.stops().get(order.get(leg - 1));
                grams = grams - left.delivered().grams() + left.collected().grams();
                millilitres = millilitres
                        - left.delivered().millilitres()
                        + left.collected().millilitres();
            }
            if (grams > shift.capacity().grams()
                    || millilitres > shift.capacity().millilitres()) {
                wrong.add("leg " + leg + " of " + order + " carries " + grams + " g, " + millilitres + " mL");
            }
        }
        return wrong;
    }

    private List<String> timesToldWrong(VanRound round) {
        VanShift shift = problem.shifts().get(round.shift());
        List<String> wrong = new ArrayList<>();
        List<Integer> order = round.stops().stream().map(PlannedStop::stop).toList();
        List<Visit> visits = walk(shift, order);
        for (int k = 0; k < order.size(); k++) {
            PlannedStop told = round.stops().get(k);
            Visit visit = visits.get(k);
            long washed = k + 1 < order.size() ? washedBefore(shift, order, k + 1) : 0;
            if (told.arrivalSecond() != visit.arrival()
                    || told.startSecond() != visit.begin()
                    || told.departureSecond() != visit.departure()
                    || told.waitSeconds() != visit.begin() - visit.arrival()
                    || told.disinfectionSeconds() != washed
                    || told.latenessSeconds() != 0) {
                wrong.add("times told wrong: " + told + ", not " + visit);
            }
        }
        if (returns(shift, order) != round.returnSecond()) {
            wrong.add("return told wrong: " + round.returnSecond());
        }
        return wrong;
    }

    private List<String> daysWrong(FleetPlan plan) {
        List<String> wrong = new ArrayList<>();
        for (int stop = 0; stop < problem.stops().size(); stop++) {
            List<Integer> days = new ArrayList<>();
            for (VanRound round : plan.rounds()) {
                for (PlannedStop visit : round.stops()) {
                    if (visit.stop() == stop) {
                        days.add(problem.shifts().get(round.shift()).day());
                    }
                }
            }
            boolean leftOut = plan.unplaced().contains(stop);
            boolean allowed = problem.stops().get(stop).dayChoices().stream()
                    .anyMatch(choice ->
                            choice.size() == days.size() && new TreeSet<>(choice).equals(new TreeSet<>(days)));
            if (leftOut ? !days.isEmpty() : !allowed) {
                wrong.add("stop " + stop + " is visited on days " + days + (leftOut ? " and left out" : ""));
            }
        }
        return wrong;
    }

    long driving(VanShift shift, List<Integer> order) {
        return legs(shift, order).stream().mapToLong(TravelLeg::seconds).sum();
    }

    long metres(VanShift shift, List<Integer> order) {
        return legs(shift, order).stream().mapToLong(TravelLeg::metres).sum();
    }

    private List<TravelLeg> legs(VanShift shift, List<Integer> order) {
        List<TravelLeg> legs = new ArrayList<>();
        int here = TravelTimes.depot(shift.depot());
        for (int stop : order) {
            legs.add(leg(here, stop));
            here = stop;
        }
        if (!order.isEmpty()) {
            legs.add(leg(here, TravelTimes.depot(shift.returnsTo())));
        }
        return legs;
    }

    /** A visit; the last one's departure is without what follows it. */
    record Visit(long arrival, long begin, long departure) {}

    /** When everything happens, whether or not it is allowed to be that late. */
    private List<Visit> walk(VanShift shift, List<Integer> order) {
        List<Visit> visits = new ArrayList<>();
        CheckedClock clock = new CheckedClock(shift.rest(), shift.startSecond());
        int here = TravelTimes.depot(shift.depot());
        for (int k = 0; k < order.size(); k++) {
            FleetStop visited = problem.stops().get(order.get(k));
            long washed = washedBefore(shift, order, k);
            clock.spend(washed);
            if (k > 0 && washed > 0) {
                Visit left = visits.removeLast();
                visits.add(new Visit(left.arrival(), left.begin(), clock.now()));
            }
            clock.spend(leg(here, order.get(k)).seconds());
            long arrival = clock.now();
            clock.begin(visited.opensSecond());
            long begin = clock.now();
            clock.spend(visited.serviceSeconds());
            visits.add(new Visit(arrival, begin, clock.now()));
            here = order.get(k);
        }
        clock.spend(
                order.isEmpty()
                        ? 0
                        : leg(here, TravelTimes.depot(shift.returnsTo())).seconds());
        visits.add(new Visit(clock.now(), clock.now(), clock.now()));
        return visits;
    }

    private List<Long> begins(VanShift shift, List<Integer> order) {
        return walk(shift, order).stream().map(Visit::begin).toList();
    }

    /** Seconds of the disinfection before a stop: it is clean, and the crew is not since it last was. */
    private long washedBefore(VanShift shift, List<Integer> order, int position) {
        Disinfection disinfection = problem.disinfection();
        return disinfection != null && dirtyBefore(shift, order)[position] ? disinfection.seconds() : 0;
    }

    private int disinfections(VanShift shift, List<Integer> order) {
        int count = 0;
        for (boolean dirty : dirtyBefore(shift, order)) {
            count += dirty ? 1 : 0;
        }
        return count;
    }

    private boolean[] dirtyBefore(VanShift shift, List<Integer> order) {
        boolean[] washed = new boolean[order.size()];
        boolean dirty = shift.startsSick();
        for (int k = 0; k < order.size(); k++) {
            FleetStop visited = problem.stops().get(order.get(k));
            if (!SICK.contains(visited.arrivesAs())) {
                washed[k] = dirty;
                dirty = false;
            }
            dirty |= SICK.contains(visited.leavesAs());
        }
        return washed;
    }

    long disinfectionCost(VanShift shift, List<Integer> order) {
        return disinfections(shift, order) * disinfectionCost();
    }

    private long disinfectionCost() {
        return problem.disinfection() == null ? 0 : problem.disinfection().cost();
    }

    /** Cost of wishes that one shift's order does not meet. */
    long wishes(int shiftIndex, List<Integer> order) {
        VanShift shift = problem.shifts().get(shiftIndex);
        List<Long> begins = begins(shift, order);
        long cost = 0;
        for (int k = 0; k < order.size(); k++) {
            StopWishes wishes = problem.stops().get(order.get(k)).wishes();
            if (!wishes.crew().isEmpty() && !wishes.crew().equals(shift.crew())) {
                cost += wishes.strangerCost();
            }
            StopWishes.Promise promise = wishes.promise();
            if (promise != null && (begins.get(k) < promise.fromSecond() || begins.get(k) > promise.untilSecond())) {
                cost += promise.cost() + promise.perSecondLate() * Math.max(0, begins.get(k) - promise.untilSecond());
            }
        }
        return cost;
    }

    /** Cost of weeks with more work than their share. */
    long uneven(Map<Integer, ? extends Collection<Integer>> stopsOfShift) {
        long cost = 0;
        for (int week = 0; week < problem.evenness().shares().size(); week++) {
            long work = 0;
            for (int shift : stopsOfShift.keySet()) {
                if (problem.shifts().get(shift).day() / 7 == week) {
                    for (int stop : Objects.requireNonNull(stopsOfShift.get(shift))) {
                        work += problem.stops().get(stop).serviceSeconds();
                    }
                }
            }
            long beyond = work - problem.evenness().shares().get(week);
            cost += beyond > 0 ? beyond * problem.evenness().perSecond() : 0;
        }
        return cost;
    }

    private long choices(FleetPlan plan) {
        long cost = 0;
        for (int stop = 0; stop < problem.stops().size(); stop++) {
            FleetStop known = problem.stops().get(stop);
            Set<Integer> days = new TreeSet<>();
            for (VanRound round : plan.rounds()) {
                for (PlannedStop visit : round.stops()) {
                    if (visit.stop() == stop) {
                        days.add(problem.shifts().get(round.shift()).day());
                    }
                }
            }
            for (int choice = 0; choice < known.wishes().choiceCosts().size(); choice++) {
                if (days.equals(new TreeSet<>(known.dayChoices().get(choice)))) {
                    cost += known.wishes().choiceCosts().get(choice);
                    break;
                }
            }
        }
        return cost;
    }

    /** When the van is back, whether or not it is allowed to be that late. */
    long returns(VanShift shift, List<Integer> order) {
        return walk(shift, order).getLast().arrival();
    }

    private TravelLeg leg(int from, int to) {
        return problem.travel().leg(from, to);
    }
}
