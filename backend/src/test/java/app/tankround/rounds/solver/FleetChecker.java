package app.tankround.rounds.solver;

import app.tankround.tanks.InfectionClass;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

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
        int reloads = 0;
        long wishes = 0;
        for (VanRound round : plan.rounds()) {
            List<Integer> order = round.order();
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
            reloads += reloads(order);
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
                + plan.rounds().stream()
                                .filter(round ->
                                        !problem.shifts().get(round.shift()).out())
                                .count()
                        * weights.perRound()
                + disinfections * disinfectionCost()
                + reloads * reloadCost()
                + wishes
                + penalty;
        FleetCost cost = new FleetCost(
                driving, metres, overtime, plan.rounds().size(), disinfections, reloads, wishes, penalty, total);
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
            if (stop == VanRound.RELOAD) {
                wrong.addAll(reloadWrong(shift, order, k));
                here = TravelTimes.depot(shift.returnsTo());
                continue;
            }
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
                    .filter(stop -> stop != VanRound.RELOAD)
                    .filter(stop -> !SICK.contains(problem.stops().get(stop).arrivesAs()))
                    .forEach(stop -> wrong.add("stop " + stop + " is clean and the crew is not"));
        }
        for (int early = 0; early < order.size(); early++) {
            for (int late = early + 1; late < order.size(); late++) {
                if (order.get(early) == VanRound.RELOAD || order.get(late) == VanRound.RELOAD) {
                    continue;
                }
                FleetStop first = problem.stops().get(order.get(early));
                FleetStop then = problem.stops().get(order.get(late));
                if (SICK.contains(first.leavesAs()) && !SICK.contains(then.arrivesAs())) {
                    wrong.add("stop " + order.get(late) + " is clean and follows sick stop " + order.get(early));
                }
            }
        }
        return wrong;
    }

    /** A reload is between two stops, over roads, and nobody goes to the depot's clean stock from a sick stop. */
    private List<String> reloadWrong(VanShift shift, List<Integer> order, int at) {
        List<String> wrong = new ArrayList<>();
        if (problem.reload() == null
                || at == 0
                || at + 1 == order.size()
                || order.get(at - 1) == VanRound.RELOAD
                || order.get(at + 1) == VanRound.RELOAD) {
            wrong.add("there must be no reload at " + at + " of " + order);
            return wrong;
        }
        if (!problem.travel().drivable(order.get(at - 1), TravelTimes.depot(shift.returnsTo()))) {
            wrong.add("there is no way to the depot from " + order.get(at - 1));
        }
        boolean sick = order.subList(0, at).stream()
                .anyMatch(stop -> stop != VanRound.RELOAD
                        && SICK.contains(problem.stops().get(stop).leavesAs()));
        if (problem.disinfection() == null && (sick || shift.startsSick())) {
            wrong.add("the reload at " + at + " of " + order + " comes after a sick stop");
        }
        return wrong;
    }

    /** Trip by trip: at the depot the van is emptied, then takes what the next trip delivers. */
    private List<String> overloads(VanShift shift, List<Integer> order) {
        List<List<Integer>> trips = new ArrayList<>();
        trips.add(new ArrayList<>());
        for (int stop : order) {
            if (stop == VanRound.RELOAD) {
                trips.add(new ArrayList<>());
            } else {
                trips.getLast().add(stop);
            }
        }
        List<String> wrong = new ArrayList<>();
        for (List<Integer> trip : trips) {
            for (int leg = 0; leg <= trip.size(); leg++) {
                long grams = 0;
                long millilitres = 0;
                for (int k = 0; k < trip.size(); k++) {
                    FleetStop stop = problem.stops().get(trip.get(k));
                    Cargo onBoard = k < leg ? stop.collected() : stop.delivered();
                    grams += onBoard.grams();
                    millilitres += onBoard.millilitres();
                }
                if (grams > shift.capacity().grams()
                        || millilitres > shift.capacity().millilitres()) {
                    wrong.add("leg " + leg + " of " + trip + " carries " + grams + " g, " + millilitres + " mL");
                }
            }
        }
        return wrong;
    }

    /** Whether whatever follows these stops cannot make them right: late, too much, by the wrong crew or over no road. */
    boolean hopeless(int shiftIndex, List<Integer> order) {
        VanShift shift = problem.shifts().get(shiftIndex);
        int here = TravelTimes.depot(shift.depot());
        for (int k = 0; k < order.size(); k++) {
            int place = order.get(k) == VanRound.RELOAD ? TravelTimes.depot(shift.returnsTo()) : order.get(k);
            if (!problem.travel().drivable(here, place)) {
                return true;
            }
            here = place;
            if (place >= 0) {
                FleetStop stop = problem.stops().get(place);
                Integer only = stop.wishes().onlyShift();
                if (!shift.skills().containsAll(stop.skills()) || only != null && only != shiftIndex) {
                    return true;
                }
            }
        }
        if (!overloads(shift, order).isEmpty()) {
            return true;
        }
        List<Long> begins = begins(shift, order);
        return IntStream.range(0, order.size())
                .anyMatch(k -> order.get(k) != VanRound.RELOAD
                        && begins.get(k)
                                > Math.min(
                                        shift.latestEndSecond(),
                                        problem.stops().get(order.get(k)).closesSecond()));
    }

    private List<String> timesToldWrong(VanRound round) {
        VanShift shift = problem.shifts().get(round.shift());
        List<String> wrong = new ArrayList<>();
        List<Integer> order = round.order();
        List<Visit> visits = walk(shift, order);
        Iterator<PlannedStop> stops = round.stops().iterator();
        Iterator<PlannedReload> reloads = round.reloads().iterator();
        for (int k = 0; k < order.size(); k++) {
            Visit visit = visits.get(k);
            if (order.get(k) == VanRound.RELOAD) {
                PlannedReload told = reloads.next();
                if (told.arrivalSecond() != visit.arrival() || told.departureSecond() != visit.departure()) {
                    wrong.add("times of reload told wrong: " + told + ", not " + visit);
                }
                continue;
            }
            PlannedStop told = stops.next();
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
            int place = stop == VanRound.RELOAD ? TravelTimes.depot(shift.returnsTo()) : stop;
            legs.add(leg(here, place));
            here = place;
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
            long washed = washedBefore(shift, order, k);
            clock.spend(washed);
            if (k > 0 && washed > 0) {
                Visit left = visits.removeLast();
                visits.add(new Visit(left.arrival(), left.begin(), clock.now()));
            }
            if (order.get(k) == VanRound.RELOAD) {
                int depot = TravelTimes.depot(shift.returnsTo());
                clock.spend(leg(here, depot).seconds());
                long arrival = clock.now();
                clock.spend(problem.reload() == null ? 0 : problem.reload().seconds());
                visits.add(new Visit(arrival, arrival, clock.now()));
                here = depot;
                continue;
            }
            FleetStop visited = problem.stops().get(order.get(k));
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

    /** Seconds of the disinfection before a stop or reload: it is clean, and the crew is not since it last was. */
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
            if (order.get(k) == VanRound.RELOAD) {
                washed[k] = dirty;
                dirty = false;
                continue;
            }
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

    long reloadCost(List<Integer> order) {
        return reloads(order) * reloadCost();
    }

    private static int reloads(List<Integer> order) {
        return (int) order.stream().filter(stop -> stop == VanRound.RELOAD).count();
    }

    private long reloadCost() {
        return problem.reload() == null ? 0 : problem.reload().cost();
    }

    /** Cost of wishes that one shift's order does not meet. */
    long wishes(int shiftIndex, List<Integer> order) {
        VanShift shift = problem.shifts().get(shiftIndex);
        List<Long> begins = begins(shift, order);
        long cost = 0;
        for (int k = 0; k < order.size(); k++) {
            if (order.get(k) == VanRound.RELOAD) {
                continue;
            }
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
