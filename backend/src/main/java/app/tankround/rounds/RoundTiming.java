package app.tankround.rounds;

import app.tankround.clients.SiteView;
import app.tankround.rounds.StoredRound.StoredStop;
import app.tankround.rounds.StoredRound.Timing;
import app.tankround.rounds.solver.PlanCost;
import app.tankround.rounds.solver.PlanFinding;
import app.tankround.rounds.solver.PlannedStop;
import app.tankround.rounds.solver.PlanningMethod;
import app.tankround.rounds.solver.RoundPlan;
import app.tankround.rounds.solver.RoundProblem;
import app.tankround.rounds.solver.RoundSolver;
import app.tankround.rounds.solver.Stop;
import app.tankround.rounds.solver.TimeWindow;
import app.tankround.rounds.solver.TravelLeg;
import app.tankround.rounds.solver.TravelTimes;
import app.tankround.tanks.InfectionClass;
import app.tankround.web.FieldRefusal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Puts the stops of a round in order and works out their times. Stops whose work has begun keep their places at the
 * front; the others are ordered from there on.
 *
 * @param depot where the round starts and ends
 * @param leavesAt when the van leaves the depot
 * @param before what its van did before on that day
 * @param zone in which the times of begun stops are read
 * @param terms that say when the crew has its break
 */
record RoundTiming(
        SiteView depot, LocalTime leavesAt, Before before, ZoneId zone, SiteTravel travel, PlanningTerms terms) {

    /**
     * What a van did on a day before it leaves.
     *
     * @param began when it left first; its crew's break counts from then
     * @param sick whether the last stop before was left sick
     */
    record Before(LocalTime began, boolean sick) {}

    /** Farther from the depot, as the crow flies, a position is a mistake. */
    static final int FARTHEST_KM = 300;

    static final int MOST_STOPS = 200;

    private static final int MINUTES_OF_DAY = 1440;

    /**
     * A stop with what its order depends on.
     *
     * @param minutes from arrival to the end of the work, as planning reckons
     * @param window when work may start; null means all day
     */
    record Work(
            StoredStop stop,
            SiteView site,
            @Nullable TimeWindow window,
            int minutes,
            InfectionClass cleanest,
            InfectionClass sickest) {

        String siteName() {
            return site.name();
        }

        /** The same with animals on board: work starts while every bag is good, and they are acclimated within the stop. */
        Work with(List<AnimalDelivery> animals, LocalDate day, ZoneId zone) {
            int last = animals.stream()
                    .mapToInt(each -> each.lastMinute(day, zone))
                    .min()
                    .orElse(MINUTES_OF_DAY);
            if (animals.isEmpty()) {
                return this;
            }
            TimeWindow open = window == null ? new TimeWindow(0, MINUTES_OF_DAY) : window;
            return new Work(
                    stop,
                    site,
                    // A bag that is good no longer once the site opens leaves no time at all: every start is late.
                    new TimeWindow(
                            open.fromMinute(), Math.max(open.fromMinute() + 1, Math.min(open.untilMinute(), last))),
                    minutes
                            + animals.stream()
                                    .mapToInt(AnimalDelivery::acclimationMinutes)
                                    .sum(),
                    cleanest,
                    sickest);
        }
    }

    record Result(List<StoredStop> stops, Timing timing) {}

    /** The best order found. */
    Result best(List<Work> work) {
        Remaining remaining = remaining(work);
        return result(remaining, RoundSolver.withDefaults().solve(remaining.problem()));
    }

    /** The stops in the order in which they are given; begun stops must come first. */
    Result given(List<Work> work, PlanningMethod method, boolean provenBest) {
        Remaining remaining = remaining(work);
        RoundPlan given = quick(remaining).evaluate(inOrder(remaining)).given();
        Result result = result(remaining, given);
        Timing timing = result.timing();
        return new Result(
                result.stops(),
                new Timing(method, provenBest, timing.drivingSeconds(), timing.distanceM(), timing.returnsAt()));
    }

    /** What the order in which the stops are given costs against the best one, and what it breaks. */
    OrderCost cost(List<Work> work) {
        Remaining remaining = remaining(work);
        return cost(remaining, RoundSolver.withDefaults().solve(remaining.problem()));
    }

    /** What the order in which the stops are given breaks, without looking for the best one. */
    List<OrderCost.BrokenPromise> broken(List<Work> work) {
        Remaining remaining = remaining(work);
        return cost(remaining, quick(remaining)).broken();
    }

    private static OrderCost cost(Remaining remaining, RoundPlan against) {
        PlanCost cost = against.evaluate(inOrder(remaining));
        return new OrderCost(
                cost.extraDrivingMinutes(),
                cost.extraKilometres(),
                cost.findings().stream()
                        .map(finding -> brokenPromise(remaining.work(), finding))
                        .toList());
    }

    private static OrderCost.BrokenPromise brokenPromise(List<Work> work, PlanFinding finding) {
        List<Integer> arguments = finding.arguments();
        return switch (finding.code()) {
            case WINDOW_MISSED -> {
                Work late = work.get(arguments.get(0));
                yield new OrderCost.BrokenPromise(
                        OrderCost.Promise.WINDOW, late.stop().id(), late.siteName(), arguments.get(1));
            }
            case LEG_BLOCKED -> {
                Work towards = work.get(Math.max(arguments.get(0), arguments.get(1)));
                yield new OrderCost.BrokenPromise(
                        OrderCost.Promise.DRIVABLE, towards.stop().id(), towards.siteName(), 0);
            }
            case SICK_BEFORE_CLEAN -> {
                Work clean = work.get(arguments.get(1));
                yield new OrderCost.BrokenPromise(
                        OrderCost.Promise.CLEAN_BEFORE_SICK, clean.stop().id(), clean.siteName(), 0);
            }
        };
    }

    /** Any plan will do where only another order is to be timed. */
    private static RoundPlan quick(Remaining remaining) {
        return RoundSolver.withDefaults().withExactLimit(0).solve(remaining.problem());
    }

    private static List<Integer> inOrder(Remaining remaining) {
        return IntStream.range(0, remaining.work().size()).boxed().toList();
    }

    /**
     * The part of a round that can still be ordered.
     *
     * @param done the stops before it
     * @param driven on the way to the last of them
     */
    private record Remaining(List<StoredStop> done, TravelLeg driven, List<Work> work, RoundProblem problem) {}

    private Remaining remaining(List<Work> work) {
        if (work.size() > MOST_STOPS) {
            throw new FieldRefusal("sites", "rounds.too-many-stops", work.size(), 1, MOST_STOPS);
        }
        for (Work each : work) {
            long kilometres =
                    Math.round(SiteTravel.position(depot).greatCircleMetresTo(SiteTravel.position(each.site())) / 1000);
            if (kilometres > FARTHEST_KM) {
                throw new FieldRefusal("sites", "rounds.too-far", kilometres, 0, FARTHEST_KM, each.siteName());
            }
            if (each.minutes() > MINUTES_OF_DAY) {
                throw new FieldRefusal("sites", "rounds.past-midnight");
            }
        }
        List<Work> begun =
                work.stream().filter(each -> each.stop().startedAt() != null).toList();
        List<Work> open =
                work.stream().filter(each -> each.stop().startedAt() == null).toList();
        SiteView origin = depot;
        int seconds = 0;
        int metres = 0;
        for (Work each : begun) {
            TravelLeg leg = travel.leg(origin, each.site());
            seconds += leg.seconds();
            metres += leg.metres();
            origin = each.site();
        }
        LocalTime start = begun.isEmpty() ? leavesAt : begun.getLast().stop().leftAt(zone);
        RoundProblem problem = new RoundProblem(
                open.stream()
                        .map(each -> new Stop(each.minutes(), each.window(), each.cleanest(), each.sickest()))
                        .toList(),
                travel(origin, open),
                start.getHour() * 60 + start.getMinute(),
                RoundProblem.DISINFECTION_MINUTES,
                begun.isEmpty() ? before.sick() : begun.getLast().sickest().isSick(),
                terms.rest(before.began(), start));
        return new Remaining(begun.stream().map(Work::stop).toList(), new TravelLeg(seconds, metres), open, problem);
    }

    /** From the last begun stop onwards, and back to the depot. */
    private TravelTimes travel(SiteView origin, List<Work> open) {
        List<SiteView> stops = open.stream().map(Work::site).toList();
        TravelTimes out = travel.between(stops, List.of(origin));
        TravelTimes back = travel.between(stops, List.of(depot));
        return new TravelTimes() {
            @Override
            public TravelLeg leg(int from, int to) {
                return (to == DEPOT ? back : out).leg(from, to);
            }

            @Override
            public boolean drivable(int from, int to) {
                return (to == DEPOT ? back : out).drivable(from, to);
            }
        };
    }

    /** How many legs of the round there are, and how many of them are only guessed. */
    GuessedLegs guessed(List<Work> work) {
        List<SiteView> places = new ArrayList<>();
        places.add(depot);
        work.forEach(each -> places.add(each.site()));
        places.add(depot);
        int guessed = 0;
        for (int k = 1; k < places.size(); k++) {
            guessed += travel.isKnown(places.get(k - 1), places.get(k)) ? 0 : 1;
        }
        return new GuessedLegs(work.isEmpty() ? 0 : guessed, work.isEmpty() ? 0 : places.size() - 1);
    }

    /** What the times follow from, in whatever order the stops are done. */
    RoundPace pace(List<Work> work) {
        List<SiteView> places =
                Stream.concat(Stream.of(depot), work.stream().map(Work::site)).toList();
        return new RoundPace(
                work.stream().map(RoundPace.AtStop::of).toList(),
                places.stream()
                        .map(from -> places.stream()
                                .map(to -> travel.leg(from, to).seconds())
                                .toList())
                        .toList(),
                RoundProblem.DISINFECTION_MINUTES,
                terms.reloadMinutes(),
                before.sick(),
                terms.restMinutes(before.began()));
    }

    private static Result result(Remaining remaining, RoundPlan plan) {
        List<StoredStop> stops = new ArrayList<>(remaining.done());
        for (PlannedStop planned : plan.stops()) {
            stops.add(remaining
                    .work()
                    .get(planned.stop())
                    .stop()
                    .at(
                            time(planned.arrivalSecond()),
                            time(planned.startSecond()),
                            time(planned.departureSecond()),
                            planned.latenessMinutes()));
        }
        Timing timing = new Timing(
                plan.method(),
                plan.proven(),
                Math.toIntExact(remaining.driven().seconds() + plan.cost().drivingSeconds()),
                Math.toIntExact(remaining.driven().metres() + plan.cost().metres()),
                time(plan.returnSecond()));
        return new Result(stops, timing);
    }

    private static LocalTime time(int second) {
        if (second >= MINUTES_OF_DAY * 60) {
            throw new FieldRefusal("sites", "rounds.past-midnight");
        }
        return LocalTime.ofSecondOfDay(second);
    }
}
