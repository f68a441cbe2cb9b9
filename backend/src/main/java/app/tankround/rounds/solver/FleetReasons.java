package app.tankround.rounds.solver;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Says of a stop, for every shift, what stands against visiting it there, by how much, and what it would cost. Each shift
 * keeps the order of its other stops; the stop is tried at every place, and the place that asks for least counts, of each
 * trip from the depot where the van loads again in between.
 */
public final class FleetReasons {

    private static final int SECONDS_PER_MINUTE = 60;
    private static final int GRAMS_PER_KILOGRAM = 1000;
    /** A day moved weighs as much as two hours, what cannot be changed by degrees as much as a week. */
    private static final double DAY_WEIGHT = 120;

    private static final double WHOLE_WEIGHT = 10_000;

    /** What can stand against a visit. */
    public enum Constraint {
        /** It may not be visited that day; amount: days to the nearest one that is allowed. */
        DAY,
        /** The crew lacks a skill. */
        SKILL,
        /** It is locked to another shift. */
        LOCKED,
        /** Work could start only after the end of its window; amount: seconds. */
        WINDOW,
        /** Another stop would start after the end of its window; amount: seconds. */
        OTHER_WINDOW,
        /** The van would be back too late; amount: seconds. */
        SHIFT_END,
        /** The van would be too heavy; amount: grams. */
        MASS,
        /** The van would be too full; amount: millilitres. */
        ROOM,
        /** A clean stop would follow a sick one. */
        SICK_BEFORE_CLEAN,
        /** There is no road from the stop before, or to the next. */
        NO_WAY
    }

    /**
     * What is missing.
     *
     * @param amount in the unit that the constraint names; 0 where there is none
     */
    public record Shortage(Constraint constraint, long amount) {

        double severity() {
            return switch (constraint) {
                case DAY -> DAY_WEIGHT * amount;
                case WINDOW, OTHER_WINDOW, SHIFT_END -> (double) amount / SECONDS_PER_MINUTE;
                case MASS, ROOM -> (double) amount / GRAMS_PER_KILOGRAM;
                case SKILL, LOCKED, SICK_BEFORE_CLEAN, NO_WAY -> WHOLE_WEIGHT;
            };
        }
    }

    /**
     * What stands against one trip of a shift.
     *
     * @param trip the trip among those of the shift's other stops, the first being 1
     * @param shortages empty if it fits there
     * @param missing skills that the crew lacks
     * @param otherStop the stop that would be too late, or is too sick or too clean; -1 for none
     * @param order the shift's stops with it at that place, {@link VanRound#RELOAD} where the van loads again
     * @param withoutReload what would be missing there if the van did not load again beside it; empty where it need not
     * @param extraCost what it would cost there beyond what the shift's other stops cost, in the unit of {@link FleetWeights}
     */
    public record Reason(
            int shift,
            int trip,
            List<Shortage> shortages,
            Set<String> missing,
            int otherStop,
            List<Integer> order,
            List<Shortage> withoutReload,
            long extraCost) {

        public Reason {
            order = List.copyOf(order);
            withoutReload = List.copyOf(withoutReload);
            shortages = List.copyOf(shortages);
            missing = Set.copyOf(missing);
        }

        /** How much is asked for, in about minutes; for comparing only. */
        public double severity() {
            return shortages.stream().mapToDouble(Shortage::severity).sum();
        }
    }

    private final FleetProblem problem;
    private final Map<Integer, List<Integer>> orders;

    /**
     * Of a plan.
     *
     * @param orders per shift, its stops in order, {@link VanRound#RELOAD} where the van loads again
     */
    public FleetReasons(FleetProblem problem, Map<Integer, List<Integer>> orders) {
        this.problem = problem;
        this.orders = Map.copyOf(orders);
    }

    /** For every shift and its trips, in their order, what stands against visiting the stop there. */
    public List<Reason> of(int stop) {
        return IntStream.range(0, problem.shifts().size())
                .boxed()
                .flatMap(shift -> of(stop, shift).stream())
                .toList();
    }

    /**
     * When work starts at each stop of a shift in this order, in seconds of day, whether or not it may be that late; the van
     * may load again in between.
     */
    public List<Integer> starts(int shift, List<Integer> order) {
        return new Walk(shift, order, -1).begins;
    }

    /** What stands against visiting the stop in that shift, on each round of its van. */
    public List<Reason> of(int stop, int shiftIndex) {
        List<Integer> others = without(stop, orders.getOrDefault(shiftIndex, List.of()));
        List<Shortage> anywhere = anywhere(stop, shiftIndex);
        long without = new Walk(shiftIndex, others, -1).cost();
        List<Reason> trips = new ArrayList<>();
        Reason best = null;
        int trip = 1;
        for (int position = 0; position <= others.size(); position++) {
            if (best != null && others.get(position - 1) == VanRound.RELOAD) {
                trips.add(best);
                best = null;
                trip++;
            }
            List<Integer> plain = new ArrayList<>(others);
            plain.add(position, stop);
            Walk walk = new Walk(shiftIndex, plain, stop);
            best = better(best, reason(stop, shiftIndex, trip, plain, walk, anywhere, List.of(), without));
            List<Shortage> tooMuch = walk.loadShortages();
            if (problem.reload() != null) {
                for (List<Integer> reloading : withReloads(others, stop, position)) {
                    Walk again = new Walk(shiftIndex, reloading, stop);
                    best = better(best, reason(stop, shiftIndex, trip, reloading, again, anywhere, tooMuch, without));
                }
            }
        }
        if (best == null) {
            throw new IllegalStateException("A stop has a first place in every order");
        }
        trips.add(best);
        return trips;
    }

    private Reason reason(
            int stop,
            int shiftIndex,
            int trip,
            List<Integer> order,
            Walk walk,
            List<Shortage> anywhere,
            List<Shortage> withoutReload,
            long without) {
        List<Shortage> all = new ArrayList<>(anywhere);
        all.addAll(walk.shortages());
        return new Reason(
                shiftIndex,
                trip,
                all,
                missing(stop, shiftIndex),
                walk.otherStop,
                order,
                withoutReload,
                walk.cost() - without + wishes(stop, shiftIndex));
    }

    private static Reason better(@Nullable Reason one, Reason other) {
        return one == null
                        || other.severity() < one.severity()
                        || other.severity() == one.severity() && other.extraCost() < one.extraCost()
                ? other
                : one;
    }

    /** The orders in which the van loads again before the stop, after it, or both; never at an end or twice in a row. */
    private static List<List<Integer>> withReloads(List<Integer> others, int stop, int position) {
        boolean before = position > 0 && others.get(position - 1) != VanRound.RELOAD;
        boolean after = position < others.size() && others.get(position) != VanRound.RELOAD;
        List<List<Integer>> all = new ArrayList<>();
        for (int beside = 1; beside <= 3; beside++) {
            boolean wantedBefore = (beside & 1) != 0;
            boolean wantedAfter = (beside & 2) != 0;
            if ((!wantedBefore || before) && (!wantedAfter || after)) {
                List<Integer> order = new ArrayList<>(others);
                if (wantedAfter) {
                    order.add(position, VanRound.RELOAD);
                }
                order.add(position, stop);
                if (wantedBefore) {
                    order.add(position, VanRound.RELOAD);
                }
                all.add(order);
            }
        }
        return all;
    }

    /** An order without a stop, and without the reloads that have no stop before or after them then. */
    public static List<Integer> without(int stop, List<Integer> order) {
        List<Integer> others = new ArrayList<>();
        for (int each : order) {
            boolean needless = each == VanRound.RELOAD && (others.isEmpty() || others.getLast() == VanRound.RELOAD);
            if (each != stop && !needless) {
                others.add(each);
            }
        }
        if (!others.isEmpty() && others.getLast() == VanRound.RELOAD) {
            others.removeLast();
        }
        return others;
    }

    private List<Shortage> anywhere(int stop, int shiftIndex) {
        FleetStop wanted = problem.stops().get(stop);
        VanShift shift = problem.shifts().get(shiftIndex);
        List<Shortage> all = new ArrayList<>();
        int away = wanted.dayChoices().stream()
                .flatMap(List::stream)
                .mapToInt(day -> Math.abs(day - shift.day()))
                .min()
                .orElse(0);
        if (away > 0) {
            all.add(new Shortage(Constraint.DAY, away));
        }
        if (!missing(stop, shiftIndex).isEmpty()) {
            all.add(new Shortage(Constraint.SKILL, 0));
        }
        Integer only = wanted.wishes().onlyShift();
        if (only != null && only != shiftIndex) {
            all.add(new Shortage(Constraint.LOCKED, 0));
        }
        return all;
    }

    private Set<String> missing(int stop, int shiftIndex) {
        Set<String> missing = new HashSet<>(problem.stops().get(stop).skills());
        missing.removeAll(problem.shifts().get(shiftIndex).skills());
        return missing;
    }

    private long wishes(int stop, int shiftIndex) {
        FleetStop wanted = problem.stops().get(stop);
        VanShift shift = problem.shifts().get(shiftIndex);
        int choice = wanted.dayChoices().indexOf(List.of(shift.day()));
        boolean stranger =
                !wanted.wishes().crew().isEmpty() && !wanted.wishes().crew().equals(shift.crew());
        return (choice < 0 ? 0 : wanted.choiceCost(choice))
                + (stranger ? wanted.wishes().strangerCost() : 0)
                + uneven(stop, shift.day());
    }

    private long uneven(int stop, int day) {
        Evenness evenness = problem.evenness();
        int week = evenness.weekOf(day);
        if (week < 0) {
            return 0;
        }
        long others = orders.entrySet().stream()
                .filter(entry ->
                        evenness.weekOf(problem.shifts().get(entry.getKey()).day()) == week)
                .flatMap(entry -> entry.getValue().stream())
                .filter(other -> other != stop && other != VanRound.RELOAD)
                .mapToLong(other -> problem.stops().get(other).serviceSeconds())
                .sum();
        return evenness.cost(week, others + problem.stops().get(stop).serviceSeconds()) - evenness.cost(week, others);
    }

    /** A shift driven with the clock in hand. */
    private final class Walk {

        private final VanShift shift;
        private final List<Integer> order;
        private final Set<Constraint> broken = new HashSet<>();
        private final List<Integer> begins = new ArrayList<>();
        private long cost;
        private long ownLate;
        private long othersLate;
        private long tooLong;
        private long tooHeavy;
        private long tooFull;
        private int otherStop = -1;

        Walk(int shiftIndex, List<Integer> order, int stop) {
            shift = problem.shifts().get(shiftIndex);
            this.order = order;
            if (!order.isEmpty()) {
                drive(stop);
                load();
            }
        }

        private void drive(int stop) {
            FleetWeights weights = problem.weights();
            Rest rest = shift.rest();
            long clock = shift.startSecond();
            int here = TravelTimes.depot(shift.depot());
            boolean sick = shift.startsSick();
            cost = problem.perRound(shift);
            for (int each : order) {
                if (each == VanRound.RELOAD) {
                    Reload reload = Objects.requireNonNull(problem.reload());
                    int depot = TravelTimes.depot(shift.returnsTo());
                    clock += (sick ? disinfected(here, here, stop) : 0) + leg(here, depot) + reload.seconds();
                    cost += reload.cost();
                    sick = false;
                    here = depot;
                    continue;
                }
                FleetStop visited = problem.stops().get(each);
                if (sick && !visited.arrivesAs().isSick()) {
                    clock += disinfected(here, each, stop);
                }
                clock = Math.max(clock + leg(here, each), rest.open(visited.opensSecond()));
                int begin = rest.begins(Math.toIntExact(clock));
                begins.add(begin);
                long late = begin - visited.closesSecond();
                if (each == stop) {
                    ownLate = Math.max(0, late);
                } else if (late > othersLate) {
                    othersLate = late;
                    otherStop = each;
                }
                clock += visited.serviceSeconds();
                sick = visited.leavesAs().isSick();
                here = each;
            }
            clock += leg(here, TravelTimes.depot(shift.returnsTo()));
            int end = rest.ends(Math.toIntExact(clock));
            cost += weights.perOvertimeSecond() * Math.max(0, end - shift.regularEndSecond());
            tooLong = Math.max(0, end - shift.latestEndSecond());
        }

        private long disinfected(int here, int next, int stop) {
            Disinfection disinfection = problem.disinfection();
            if (disinfection == null) {
                broken.add(Constraint.SICK_BEFORE_CLEAN);
                otherStop = next == stop ? Math.max(-1, here) : next;
                return 0;
            }
            cost += disinfection.cost();
            return disinfection.seconds();
        }

        private int leg(int from, int to) {
            TravelLeg leg = problem.travel().leg(from, to);
            if (!problem.travel().drivable(from, to)) {
                broken.add(Constraint.NO_WAY);
            }
            FleetWeights weights = problem.weights();
            cost += weights.perDrivingSecond() * leg.seconds() + weights.perMetre() * leg.metres();
            return leg.seconds();
        }

        private void load() {
            int from = 0;
            for (int k = 0; k <= order.size(); k++) {
                if (k == order.size() || order.get(k) == VanRound.RELOAD) {
                    load(order.subList(from, k));
                    from = k + 1;
                }
            }
        }

        private void load(List<Integer> trip) {
            long grams = 0;
            long millilitres = 0;
            for (int each : trip) {
                grams += problem.stops().get(each).delivered().grams();
                millilitres += problem.stops().get(each).delivered().millilitres();
            }
            weigh(grams, millilitres);
            for (int each : trip) {
                FleetStop left = problem.stops().get(each);
                grams += left.collected().grams() - left.delivered().grams();
                millilitres += left.collected().millilitres() - left.delivered().millilitres();
                weigh(grams, millilitres);
            }
        }

        private void weigh(long grams, long millilitres) {
            tooHeavy = Math.max(tooHeavy, grams - shift.capacity().grams());
            tooFull = Math.max(tooFull, millilitres - shift.capacity().millilitres());
        }

        long cost() {
            return cost;
        }

        List<Shortage> shortages() {
            List<Shortage> all = new ArrayList<>();
            // Where a leg cannot be driven, no time means anything.
            if (!broken.contains(Constraint.NO_WAY)) {
                add(all, Constraint.WINDOW, ownLate);
                add(all, Constraint.OTHER_WINDOW, othersLate);
                add(all, Constraint.SHIFT_END, tooLong);
            }
            all.addAll(loadShortages());
            broken.stream().sorted().forEach(constraint -> all.add(new Shortage(constraint, 0)));
            return all;
        }

        List<Shortage> loadShortages() {
            List<Shortage> all = new ArrayList<>();
            add(all, Constraint.MASS, tooHeavy);
            add(all, Constraint.ROOM, tooFull);
            return all;
        }

        private static void add(List<Shortage> all, Constraint constraint, long amount) {
            if (amount > 0) {
                all.add(new Shortage(constraint, amount));
            }
        }
    }
}
