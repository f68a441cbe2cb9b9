package app.tankround.rounds;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.VanView;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteView;
import app.tankround.rounds.solver.Cargo;
import app.tankround.rounds.solver.FleetProblem;
import app.tankround.rounds.solver.FleetStop;
import app.tankround.rounds.solver.RoundProblem;
import app.tankround.rounds.solver.StopWishes;
import app.tankround.rounds.solver.VanShift;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.InfectionClass;
import app.tankround.units.Mass;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;

/**
 * Weeks of due visits and vans as the planner takes them. A stop is one site with the visits that are due there about the
 * same day; a shift is a van on a day on which no round is settled.
 *
 * @param from the first day
 * @param sites per stop of the problem
 * @param days per shift of the problem
 */
record WeekProblem(LocalDate from, List<SiteVisits> sites, List<VanDay> days, FleetProblem problem) {

    /** Days by which a visit may lie before or after its own, where no other of that site comes in between. */
    static final int TOLERANCE_DAYS = 2;
    /** Hours after which a van should be back, its break included, and must be back; common practice, no source. */
    private static final double REGULAR_HOURS = 8.5;

    private static final double LONGEST_HOURS = 10;
    private static final int SECONDS_PER_HOUR = 3600;
    private static final int LAST_SECOND = 86_399;
    private static final Set<DayOfWeek> FREE = Set.of(DayOfWeek.SATURDAY, DayOfWeek.SUNDAY);

    /** A van on a day. */
    record VanDay(VanView van, LocalDate day) {}

    /**
     * The visits of one site that are done together.
     *
     * @param first the first day on which they may be done
     * @param last the last one
     * @param minutes from arrival to the end of the work, as planning reckons
     */
    record SiteVisits(
            SiteView site,
            List<PlannedVisitView> visits,
            LocalDate due,
            LocalDate first,
            LocalDate last,
            InfectionClass cleanest,
            InfectionClass sickest,
            int minutes) {

        List<PlannedVisitId> ids() {
            return visits.stream().map(PlannedVisitView::id).toList();
        }
    }

    /**
     * What a problem is made from, read once.
     *
     * @param visits due up to the last day, those of settled rounds left out
     * @param minutes of work on a visit, as planning reckons
     * @param arrivals minutes from arrival to work at sites where there are any
     * @param settled van-days with a round that stays as it is
     * @param emptyLoads per van, what is in it when it leaves for nowhere
     * @param loads per stop, what its visits add to that
     * @param known per site, who came last
     */
    record Facts(
            LocalDate from,
            int weeks,
            List<PlannedVisitView> visits,
            Function<PlannedVisitView, InfectionClass> infection,
            ToIntFunction<PlannedVisitView> minutes,
            Map<SiteId, Integer> arrivals,
            Map<SiteId, SiteView> sites,
            List<VanView> vans,
            Function<VanView, SiteView> depots,
            Set<VanDay> settled,
            Function<VanView, Mass> emptyLoads,
            Function<List<SiteVisits>, List<Mass>> loads,
            Map<SiteId, PersonId> known,
            SiteTravel travel) {}

    static WeekProblem of(Facts facts, PlanningCosts costs) {
        LocalDate last = facts.from().plusWeeks(facts.weeks()).minusDays(1);
        List<SiteVisits> sites = together(facts, last);
        List<VanDay> days = facts.from()
                .datesUntil(last.plusDays(1))
                .filter(day -> !FREE.contains(day.getDayOfWeek()))
                .flatMap(day -> facts.vans().stream().map(van -> new VanDay(van, day)))
                .filter(day -> !facts.settled().contains(day))
                .toList();
        List<SiteView> depots =
                facts.vans().stream().map(facts.depots()).distinct().toList();
        List<Mass> loads = facts.loads().apply(sites);
        List<FleetStop> stops = new ArrayList<>();
        for (int k = 0; k < sites.size(); k++) {
            stops.add(stop(facts, sites.get(k), loads.get(k), costs));
        }
        Map<VanView, Cargo> capacities = facts.vans().stream()
                .collect(Collectors.toMap(
                        Function.identity(),
                        van -> capacity(van, facts.emptyLoads().apply(van))));
        List<VanShift> shifts = days.stream()
                .map(day -> shift(
                        facts.from(),
                        day,
                        depots.indexOf(facts.depots().apply(day.van())),
                        capacities.getOrDefault(day.van(), Cargo.NONE)))
                .toList();
        FleetProblem problem = new FleetProblem(
                stops,
                shifts,
                facts.travel()
                        .between(
                                sites.stream().map(SiteVisits::site).toList(),
                                // Without a van there is no depot, and nothing that would be driven.
                                depots.isEmpty()
                                        ? sites.stream()
                                                .map(SiteVisits::site)
                                                .limit(1)
                                                .toList()
                                        : depots),
                costs.weights(),
                costs.disinfection(RoundProblem.DISINFECTION_MINUTES));
        return new WeekProblem(facts.from(), sites, days, problem);
    }

    /** The visits of each site, those due within two days of each other together; overdue ones as if due on the first day. */
    private static List<SiteVisits> together(Facts facts, LocalDate last) {
        Map<SiteId, List<PlannedVisitView>> bySite = facts.visits().stream()
                .sorted(Comparator.comparing(PlannedVisitView::dueOn)
                        .thenComparing(visit -> visit.id().value()))
                .collect(Collectors.groupingBy(PlannedVisitView::siteId, LinkedHashMap::new, Collectors.toList()));
        List<SiteVisits> all = new ArrayList<>();
        bySite.forEach((site, visits) -> {
            List<List<PlannedVisitView>> groups = new ArrayList<>();
            for (PlannedVisitView visit : visits) {
                LocalDate due = due(visit, facts.from());
                if (groups.isEmpty()
                        || due.isAfter(
                                due(groups.getLast().getFirst(), facts.from()).plusDays(TOLERANCE_DAYS))) {
                    groups.add(new ArrayList<>());
                }
                groups.getLast().add(visit);
            }
            for (int k = 0; k < groups.size(); k++) {
                LocalDate due = due(groups.get(k).getFirst(), facts.from());
                LocalDate earliest = due.minusDays(TOLERANCE_DAYS);
                LocalDate latest = due.plusDays(TOLERANCE_DAYS);
                if (k > 0) {
                    earliest = later(
                            earliest,
                            halfWay(due(groups.get(k - 1).getFirst(), facts.from()), due)
                                    .plusDays(1));
                }
                if (k + 1 < groups.size()) {
                    latest = earlier(latest, halfWay(due, due(groups.get(k + 1).getFirst(), facts.from())));
                }
                List<InfectionClass> classes =
                        groups.get(k).stream().map(facts.infection()).sorted().toList();
                all.add(new SiteVisits(
                        Optional.ofNullable(facts.sites().get(site)).orElseThrow(),
                        List.copyOf(groups.get(k)),
                        due,
                        later(earliest, facts.from()),
                        earlier(latest, last),
                        classes.getFirst(),
                        classes.getLast(),
                        facts.arrivals().getOrDefault(site, 0)
                                + groups.get(k).stream()
                                        .mapToInt(facts.minutes())
                                        .sum()));
            }
        });
        return all;
    }

    private static LocalDate due(PlannedVisitView visit, LocalDate from) {
        return later(visit.dueOn(), from);
    }

    private static LocalDate halfWay(LocalDate before, LocalDate after) {
        return before.plusDays(before.until(after, ChronoUnit.DAYS) / 2);
    }

    private static LocalDate later(LocalDate one, LocalDate other) {
        return one.isAfter(other) ? one : other;
    }

    private static LocalDate earlier(LocalDate one, LocalDate other) {
        return one.isBefore(other) ? one : other;
    }

    private static FleetStop stop(Facts facts, SiteVisits here, Mass load, PlanningCosts costs) {
        List<List<Integer>> choices = new ArrayList<>();
        List<Long> choiceCosts = new ArrayList<>();
        for (LocalDate day = here.first(); !day.isAfter(here.last()); day = day.plusDays(1)) {
            if (!FREE.contains(day.getDayOfWeek())) {
                choices.add(List.of(index(facts.from(), day)));
                choiceCosts.add(costs.perDayOff() * Math.abs(ChronoUnit.DAYS.between(here.due(), day)));
            }
        }
        if (choices.isEmpty()) {
            choices.add(List.of(index(facts.from(), here.due())));
            choiceCosts.add(0L);
        }
        LocalTime opens = here.site().attendedFrom().orElse(LocalTime.MIN);
        LocalTime closes = here.site().attendedUntil().orElse(LocalTime.MAX);
        PersonId known = facts.known().get(here.site().id());
        return new FleetStop(
                Math.min(LAST_SECOND, here.minutes() * 60),
                opens.toSecondOfDay(),
                Math.max(opens.toSecondOfDay(), closes.toSecondOfDay()),
                new Cargo(grams(load), 0),
                Cargo.NONE,
                Set.of(),
                here.cleanest(),
                here.sickest(),
                costs.leftOut(),
                choices,
                new StopWishes(choiceCosts, null, null, known == null ? "" : known.toString(), costs.stranger()));
    }

    static int index(LocalDate from, LocalDate day) {
        return Math.toIntExact(from.until(day, ChronoUnit.DAYS));
    }

    private static VanShift shift(LocalDate from, VanDay day, int depot, Cargo capacity) {
        int start = day.van().leavesAt().toSecondOfDay();
        return new VanShift(
                index(from, day.day()),
                depot,
                depot,
                start,
                Math.min(LAST_SECOND, start + (int) (REGULAR_HOURS * SECONDS_PER_HOUR)),
                Math.min(LAST_SECOND, start + (int) (LONGEST_HOURS * SECONDS_PER_HOUR)),
                capacity,
                Set.of(),
                day.van().technician().map(PersonId::toString).orElse(""),
                false);
    }

    private static Cargo capacity(VanView van, Mass empty) {
        return new Cargo(Math.max(0, grams(van.payload()) - grams(empty)), 0);
    }

    private static int grams(Mass mass) {
        return (int) Math.clamp(Math.round(mass.kilograms() * 1000), 0, 50_000_000);
    }
}
