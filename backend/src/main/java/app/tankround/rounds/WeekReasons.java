package app.tankround.rounds;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Roster;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.clients.SiteView;
import app.tankround.rounds.WeekProblem.SiteVisits;
import app.tankround.rounds.WeekProblem.VanDay;
import app.tankround.rounds.WeekProblem.VanHalf;
import app.tankround.rounds.solver.FleetReasons;
import app.tankround.rounds.solver.FleetReasons.Reason;
import app.tankround.rounds.solver.VanRound;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitState;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Why a site is where it is in a plan and nowhere else, and what moving it costs. */
@Service
public class WeekReasons {

    /** Of so many sites that are left out it is worked out at once why; of others once somebody asks. */
    private static final int MOST_ASKED = 20;

    /** Days shown before the first one that is allowed and after the last. */
    private static final int DAYS_SHOWN = 2;

    private final WeekPlans plans;
    private final WeekPlanTables tables;
    private final WeekFacts weekFacts;
    private final DueVisits dueVisits;
    private final People people;
    private final ChangeLog changes;

    WeekReasons(
            WeekPlans plans,
            WeekPlanTables tables,
            WeekFacts weekFacts,
            DueVisits dueVisits,
            People people,
            ChangeLog changes) {
        this.plans = plans;
        this.tables = tables;
        this.weekFacts = weekFacts;
        this.dueVisits = dueVisits;
        this.people = people;
        this.changes = changes;
    }

    /**
     * Why a site is where it is in a plan, or on no round at all: for each van on each day near its own, what stands against
     * it and by how much.
     *
     * @param here the site's visits
     * @param at the day on which it is planned; empty where it is left out
     * @param answers by day and van
     * @param idle vans that cannot be planned on one of these days at all
     * @param lift what fits into the site's lift, in words, which no planning knows
     */
    public record Why(
            SiteVisitsView here, Optional<LocalDate> at, List<Answer> answers, List<Idle> idle, Optional<String> lift) {

        /** The answer that asks for least, if anything stands against every other day and van. */
        public Optional<Answer> cheapestChange() {
            return cheapest(answers);
        }
    }

    private static Optional<Answer> cheapest(List<Answer> answers) {
        return answers.stream()
                .filter(answer -> !answer.reason().shortages().isEmpty())
                .min(Comparator.comparingDouble(answer -> answer.reason().severity()));
    }

    /**
     * A site's visits that are done together.
     *
     * @param visit one of them, by which {@link #why} knows all
     * @param first the first day that all of them tolerate
     * @param last the last one
     */
    public record SiteVisitsView(
            SiteView site, PlannedVisitId visit, LocalDate due, LocalDate first, LocalDate last, int minutes) {}

    /**
     * What stands against one van on one day, of each of its rounds where it has several.
     *
     * @param trips how many rounds it has on that day beside this one stop, 1 for none
     * @param before how many of them it has in an earlier half of that day
     * @param dayAgainst why that day is not allowed, if it is not
     */
    public record Answer(
            LocalDate day,
            VanView van,
            int trips,
            int before,
            boolean planned,
            Reason reason,
            Optional<SiteView> because,
            Optional<DayAgainst> dayAgainst) {

        /** On which of them the stop would be. */
        public int trip() {
            return before + reason.trip();
        }
    }

    /** Why a van cannot be planned on a day. */
    public enum IdleBecause {
        /** It does not drive on that weekday. */
        WEEKDAY,
        /** Everybody who would be in it is away. */
        AWAY,
        /** Its round of that day is settled. */
        SETTLED
    }

    /**
     * A van that cannot be planned on a day.
     *
     * @param who who is away, by name
     */
    public record Idle(LocalDate day, VanView van, IdleBecause because, List<String> who) {}

    /** Per stop, the visit by which {@link #why} knows it; none where its visits were done or dropped meanwhile. */
    @Transactional(readOnly = true)
    public Map<WeekPlanView.Stop, PlannedVisitId> asked(List<WeekPlanView.Stop> stops) {
        Set<PlannedVisitId> due =
                dueVisits
                        .find(stops.stream()
                                .flatMap(stop -> stop.visits().stream())
                                .toList())
                        .stream()
                        .filter(visit -> visit.state() == PlannedVisitState.DUE)
                        .map(PlannedVisitView::id)
                        .collect(Collectors.toSet());
        Map<WeekPlanView.Stop, PlannedVisitId> first = new HashMap<>();
        for (WeekPlanView.Stop stop : stops) {
            stop.visits().stream().filter(due::contains).findFirst().ifPresent(visit -> first.put(stop, visit));
        }
        return first;
    }

    /**
     * A site that is left out of a plan.
     *
     * @param nearest the day and van that ask for least, with what stands against them; empty if no van can be planned near
     *     its day, or a place was found meanwhile
     * @param asked whether it was worked out at all; of many only that of the first ones is
     */
    public record LeftOut(SiteVisitsView here, Optional<Answer> nearest, boolean asked) {}

    /** What is left out of a plan, each with what stands against it. */
    @Transactional
    public List<LeftOut> leftOut(WeekPlanId id) {
        WeekPlanView plan = plans.require(id);
        Set<PlannedVisitId> placed =
                plan.stops().stream().flatMap(stop -> stop.visits().stream()).collect(Collectors.toSet());
        WeekFacts.Read read = weekFacts.of(
                plan,
                all -> weighed(
                        plan,
                        leftOut(all, placed)
                                .limit(MOST_ASKED)
                                .mapToObj(all::get)
                                .toList()));
        List<Integer> out = leftOut(read.problem().sites(), placed).boxed().toList();
        Map<Integer, List<Integer>> orders = orders(read.problem(), plan);
        FleetReasons reasons = new FleetReasons(read.problem().problem(), orders);
        return IntStream.range(0, out.size())
                .mapToObj(at -> {
                    int stop = out.get(at);
                    SiteVisitsView here = view(read.problem().sites().get(stop));
                    return at < MOST_ASKED
                            ? new LeftOut(here, cheapest(answers(read, reasons, orders, stop)), true)
                            : new LeftOut(here, Optional.empty(), false);
                })
                .toList();
    }

    /** Which of the sites are left out, by their places. */
    private static IntStream leftOut(List<SiteVisits> all, Set<PlannedVisitId> placed) {
        return IntStream.range(0, all.size())
                .filter(k -> all.get(k).ids().stream().noneMatch(placed::contains));
    }

    /** Those asked about, and those with which they would share a round. */
    private static Predicate<SiteVisits> weighed(WeekPlanView plan, List<SiteVisits> asked) {
        Set<PlannedVisitId> near = Stream.concat(
                        asked.stream().map(SiteVisits::ids),
                        plan.stops().stream()
                                .filter(stop -> asked.stream().anyMatch(here -> near(stop.day(), here)))
                                .map(WeekPlanView.Stop::visits))
                .flatMap(List::stream)
                .collect(Collectors.toSet());
        return here -> here.ids().stream().anyMatch(near::contains);
    }

    private static SiteVisitsView view(SiteVisits here) {
        return new SiteVisitsView(
                here.site(), here.ids().getFirst(), here.due(), here.agreedFirst(), here.agreedLast(), here.minutes());
    }

    /**
     * Why a site's visits are on their day and van of a plan and on no other.
     *
     * @param visit one of them; a site that is split into two stops has others in the other one
     * @throws NotFound if it is not due any more
     */
    @Transactional
    public Why why(WeekPlanId id, PlannedVisitId visit) {
        return why(plans.require(id), visit);
    }

    private Why why(WeekPlanView plan, PlannedVisitId visit) {
        WeekFacts.Read read = weekFacts.of(plan, all -> weighed(plan, List.of(all.get(stopOf(all, visit)))));
        WeekProblem weeks = read.problem();
        int stop = stopOf(weeks.sites(), visit);
        Map<Integer, List<Integer>> orders = orders(weeks, plan);
        SiteVisits here = weeks.sites().get(stop);
        List<Answer> answers = answers(read, new FleetReasons(weeks.problem(), orders), orders, stop);
        Optional<LocalDate> at =
                answers.stream().filter(Answer::planned).map(Answer::day).findFirst();
        return new Why(
                view(here),
                at,
                answers,
                idle(read.facts(), here),
                Optional.ofNullable(read.facts().needs().get(here.site().id()))
                        .flatMap(needs -> Optional.ofNullable(needs.details().lift())));
    }

    private static List<Answer> answers(
            WeekFacts.Read read, FleetReasons reasons, Map<Integer, List<Integer>> orders, int stop) {
        WeekProblem weeks = read.problem();
        SiteVisits here = weeks.sites().get(stop);
        return IntStream.range(0, weeks.halves().size())
                .filter(shift -> near(weeks.halves().get(shift).day(), here))
                .mapToObj(shift -> reasons.of(stop, shift))
                .flatMap(List::stream)
                .map(reason -> {
                    VanHalf day = weeks.halves().get(reason.shift());
                    List<Integer> order = orders.getOrDefault(reason.shift(), List.of());
                    int trips = trips(FleetReasons.without(stop, order));
                    int before = before(weeks, orders, stop, reason.shift());
                    return new Answer(
                            day.day(),
                            day.van(),
                            before + trips,
                            before,
                            // Where it is the only stop of a round, that round is not among the others.
                            order.contains(stop)
                                    && reason.trip() == Math.min(trips, trips(order.subList(0, order.indexOf(stop)))),
                            reason,
                            reason.otherStop() < 0
                                    ? Optional.empty()
                                    : Optional.of(weeks.sites()
                                            .get(reason.otherStop())
                                            .site()),
                            read.facts().against(here, day.day()));
                })
                .toList();
    }

    /**
     * The rounds of the same van on the same day in the half before, which is the shift before; one stop left out, and an empty
     * half counts as one.
     */
    private static int before(WeekProblem weeks, Map<Integer, List<Integer>> orders, int stop, int shift) {
        List<VanHalf> halves = weeks.halves();
        return shift > 0
                        && halves.get(shift - 1)
                                .whole()
                                .equals(halves.get(shift).whole())
                ? trips(FleetReasons.without(stop, orders.getOrDefault(shift - 1, List.of())))
                : 0;
    }

    private static int trips(List<Integer> order) {
        return 1 + Collections.frequency(order, VanRound.RELOAD);
    }

    private List<Idle> idle(WeekProblem.Facts facts, SiteVisits here) {
        List<Idle> idle = new ArrayList<>();
        facts.from()
                .datesUntil(facts.last().plusDays(1))
                .filter(day -> near(day, here))
                .forEach(day -> {
                    for (VanView van : facts.vans()) {
                        Roster.Day crew = facts.roster().on(van, day);
                        if (crew.hours().isEmpty()) {
                            idle.add(new Idle(day, van, IdleBecause.WEEKDAY, List.of()));
                        } else if (!crew.drives()) {
                            List<String> who = crew.away().stream()
                                    .flatMap(absence -> people.find(absence.person()).stream())
                                    .map(PersonView::name)
                                    .toList();
                            idle.add(new Idle(day, van, IdleBecause.AWAY, who));
                        } else if (facts.settled().contains(new VanDay(van, day))) {
                            idle.add(new Idle(day, van, IdleBecause.SETTLED, List.of()));
                        }
                    }
                });
        return idle;
    }

    private static boolean near(LocalDate day, SiteVisits here) {
        return !day.isBefore(here.first().minusDays(DAYS_SHOWN))
                && !day.isAfter(here.last().plusDays(DAYS_SHOWN));
    }

    /**
     * Moves a site's visits to another day, van and round of a plan, to the place there that costs least.
     *
     * @param trip which of the van's rounds of that day, as {@link Answer#trip}
     * @param seen what the plan was when somebody decided so, by {@link WeekPlanView#stamp}
     * @throws FieldRefusal if they do not fit there, the plan is not ready, or it was changed since it was seen
     */
    @Transactional
    public void move(WeekPlanId id, String seen, PlannedVisitId visit, LocalDate day, VanId van, int trip) {
        if (tables.lock(id)
                .filter(head -> head.state() == WeekPlanView.State.READY)
                .isEmpty()) {
            throw new FieldRefusal("", "rounds.plan.not-ready");
        }
        WeekPlanView plan = plans.require(id);
        if (!plan.stamp().equals(seen)) {
            throw new FieldRefusal("", "rounds.plan.changed-meanwhile");
        }
        Answer wanted = why(plan, visit).answers().stream()
                .filter(answer -> answer.day().equals(day) && answer.van().id().equals(van) && answer.trip() == trip)
                .findFirst()
                .orElseThrow(() -> new FieldRefusal("", "rounds.plan.no-such-day"));
        if (!wanted.reason().shortages().isEmpty()) {
            throw new FieldRefusal("", "rounds.plan.does-not-fit");
        }
        WeekProblem weeks = weekFacts.of(plan, all -> here -> false).problem();
        Map<Integer, List<Integer>> orders = orders(weeks, plan);
        int stop = stopOf(weeks.sites(), visit);
        orders.replaceAll((shift, order) -> FleetReasons.without(stop, order));
        orders.put(wanted.reason().shift(), wanted.reason().order());
        tables.replace(id, WeekPlans.stops(weeks, orders));
        changes.record(
                "week-plan",
                id,
                "moved",
                Map.of(
                        "number",
                        plan.number(),
                        "site",
                        weeks.sites().get(stop).site().id().toString(),
                        "day",
                        day.toString(),
                        "van",
                        van.toString()));
    }

    private static int stopOf(List<SiteVisits> all, PlannedVisitId visit) {
        return IntStream.range(0, all.size())
                .filter(k -> all.get(k).ids().contains(visit))
                .findFirst()
                .orElseThrow(() -> new NotFound("visit", visit));
    }

    /** In which piece of a day a stop of a plan is; less than 0 where its van has none on that day. */
    private static int shift(WeekProblem weeks, WeekPlanView.Stop stop) {
        VanDay day = new VanDay(stop.van(), stop.day());
        return IntStream.range(0, weeks.halves().size())
                .filter(shift -> weeks.halves().get(shift).whole().equals(day))
                .reduce((earlier, later) ->
                        stop.starts().isBefore(weeks.halves().get(later).hours().from()) ? earlier : later)
                .orElse(-1);
    }

    private static Map<Integer, List<Integer>> orders(WeekProblem weeks, WeekPlanView plan) {
        Map<PlannedVisitId, Integer> stopOf = new HashMap<>();
        for (int k = 0; k < weeks.sites().size(); k++) {
            for (PlannedVisitId visit : weeks.sites().get(k).ids()) {
                stopOf.put(visit, k);
            }
        }
        Map<Integer, List<Integer>> orders = new HashMap<>();
        Map<Integer, Integer> trips = new HashMap<>();
        for (WeekPlanView.Stop stop : plan.stops()) {
            int shift = shift(weeks, stop);
            Optional<Integer> known = stop.visits().stream()
                    .flatMap(visit -> Optional.ofNullable(stopOf.get(visit)).stream())
                    .findFirst();
            if (shift >= 0 && known.isPresent()) {
                List<Integer> order = orders.computeIfAbsent(shift, each -> new ArrayList<>());
                Integer before = trips.put(shift, stop.trip());
                if (before != null && before != stop.trip()) {
                    order.add(VanRound.RELOAD);
                }
                order.add(known.get());
            }
        }
        return orders;
    }
}
