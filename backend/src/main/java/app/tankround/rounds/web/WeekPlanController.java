package app.tankround.rounds.web;

import app.tankround.accounts.Crews;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Roster;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.WeekNeeds;
import app.tankround.rounds.WeekPlanId;
import app.tankround.rounds.WeekPlanView;
import app.tankround.rounds.WeekPlans;
import app.tankround.rounds.WeekReasons;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposals;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseBody;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Plans for weeks: the board, why a visit is where it is, what another place would cost. */
@Controller
class WeekPlanController {

    /** What to plan. */
    record BeginForm(
            @Nullable LocalDate from,
            @Nullable Integer weeks,
            @Nullable Long tries,
            @Nullable Long seed) {}

    /** A row of the board: a van or a person, with what is planned on each day. */
    record Row(String name, Optional<VanId> van, Map<LocalDate, List<WeekPlanView.Stop>> days) {

        /** What is planned on a day, by the rounds of the van; one without a stop where nothing is. */
        public List<Trip> rounds(LocalDate day) {
            List<Trip> trips = new ArrayList<>();
            for (WeekPlanView.Stop stop : days.getOrDefault(day, List.of())) {
                if (trips.isEmpty() || !trips.getLast().has(stop)) {
                    trips.add(new Trip(stop.trip(), new ArrayList<>()));
                }
                trips.getLast().stops().add(stop);
            }
            return trips.isEmpty() ? List.of(new Trip(1, List.of())) : trips;
        }
    }

    /** A round on the board. */
    record Trip(int trip, List<WeekPlanView.Stop> stops) {

        private boolean has(WeekPlanView.Stop stop) {
            return stop.trip() == trip
                    && stop.van().id().equals(stops.getFirst().van().id());
        }
    }

    /** Work that goes with no visit. */
    record Unplaced(WorkProposal proposal, WaterSystemView system, SiteView site) {}

    /** What a place on the board (a round of a van on a day) costs, for whoever drags a site over it. */
    record Price(String day, String van, int trip, boolean fits, String text) {}

    private static final int USUAL_TRIES = 50_000;
    private static final int DAYS_PER_WEEK = 7;

    private final WeekPlans plans;
    private final WeekReasons reasons;
    private final WeekNeeds needs;
    private final DueVisits dueVisits;
    private final WorkProposals proposals;
    private final WaterSystems systems;
    private final SiteService sites;
    private final Fleet fleet;
    private final Crews crews;
    private final People people;
    private final PlanWords words;

    WeekPlanController(
            WeekPlans plans,
            WeekReasons reasons,
            WeekNeeds needs,
            DueVisits dueVisits,
            WorkProposals proposals,
            WaterSystems systems,
            SiteService sites,
            Fleet fleet,
            Crews crews,
            People people,
            PlanWords words) {
        this.plans = plans;
        this.reasons = reasons;
        this.needs = needs;
        this.dueVisits = dueVisits;
        this.proposals = proposals;
        this.systems = systems;
        this.sites = sites;
        this.fleet = fleet;
        this.crews = crews;
        this.people = people;
        this.words = words;
    }

    @GetMapping("/week-plans")
    String plans(Model model) {
        LocalDate monday = dueVisits.today().with(TemporalAdjusters.next(DayOfWeek.MONDAY));
        model.addAttribute("form", new BeginForm(monday, WeekPlans.MOST_WEEKS, (long) USUAL_TRIES, 1L));
        return list(model);
    }

    private String list(Model model) {
        model.addAttribute("plans", plans.newest());
        model.addAttribute("hours", needs.hours());
        return "rounds/plans";
    }

    @PostMapping("/week-plans")
    String begin(@ModelAttribute("form") BeginForm form, BindingResult result, Model model) {
        if (!result.hasErrors()) {
            try {
                if (form.from() == null) {
                    throw new FieldRefusal("from", "rounds.plan.from-tomorrow");
                }
                WeekPlanId id = plans.begin(
                        form.from(),
                        Optional.ofNullable(form.weeks()).orElse(0),
                        Optional.ofNullable(form.tries()).orElse(0L),
                        Optional.ofNullable(form.seed()).orElse(1L));
                return "redirect:/week-plans/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return list(model);
    }

    @GetMapping("/week-plans/{id}")
    String plan(
            @PathVariable WeekPlanId id,
            @RequestParam(defaultValue = "0") int week,
            @RequestParam(defaultValue = "van") String by,
            Model model) {
        WeekPlanView plan = plans.require(id);
        model.addAttribute("plan", plan);
        if (plan.state() == WeekPlanView.State.RUNNING) {
            return "rounds/plan-running";
        }
        int shown = Math.clamp(week, 0, plan.weeks() - 1);
        LocalDate first = plan.firstDay().plusWeeks(shown);
        List<LocalDate> days = first.datesUntil(first.plusDays(DAYS_PER_WEEK)).toList();
        List<WeekPlanView.Stop> stops =
                plan.stops().stream().filter(stop -> days.contains(stop.day())).toList();
        model.addAttribute("week", shown);
        model.addAttribute("by", by.equals("person") ? "person" : "van");
        model.addAttribute(
                "days",
                days.stream()
                        .filter(day -> day.getDayOfWeek().getValue() <= DayOfWeek.FRIDAY.getValue()
                                || stops.stream().anyMatch(stop -> stop.day().equals(day)))
                        .toList());
        model.addAttribute("rows", by.equals("person") ? byPerson(first, stops) : byVan(stops));
        model.addAttribute("asked", reasons.asked(stops));
        model.addAttribute("leftOut", plan.unplaced() == 0 ? List.of() : reasons.leftOut(id));
        model.addAttribute("words", words);
        model.addAttribute("unplaced", unplaced(plan));
        return "rounds/plan";
    }

    /** Work that would belong into the weeks of the plan and goes with no visit. */
    private List<Unplaced> unplaced(WeekPlanView plan) {
        return proposals.open().stream()
                .filter(open -> open.visit().isEmpty())
                .filter(open -> open.proposal().earliest().isBefore(plan.until()))
                .map(open -> {
                    WaterSystemView system = systems.require(open.proposal().system());
                    return new Unplaced(open.proposal(), system, sites.require(system.siteId()));
                })
                .toList();
    }

    private List<Row> byVan(List<WeekPlanView.Stop> stops) {
        return fleet.vans().stream()
                .map(van -> new Row(
                        van.name(),
                        Optional.of(van.id()),
                        byDay(stops.stream()
                                .filter(stop -> stop.van().id().equals(van.id()))
                                .toList())))
                .toList();
    }

    /** Everybody who is in a van that day has its stops; those of a van in which nobody was named are nobody's. */
    private List<Row> byPerson(LocalDate first, List<WeekPlanView.Stop> stops) {
        Roster roster = crews.roster(first);
        Map<Optional<PersonId>, List<WeekPlanView.Stop>> by = new HashMap<>();
        for (WeekPlanView.Stop stop : stops) {
            List<PersonId> crew = roster.on(stop.van(), stop.day()).people();
            (crew.isEmpty()
                            ? Stream.of(Optional.<PersonId>empty())
                            : crew.stream().map(Optional::of))
                    .forEach(person -> by.computeIfAbsent(person, each -> new ArrayList<>())
                            .add(stop));
        }
        return by.entrySet().stream()
                .map(entry -> new Row(
                        entry.getKey()
                                .flatMap(people::find)
                                .map(PersonView::name)
                                .orElse(""),
                        Optional.empty(),
                        byDay(entry.getValue())))
                .sorted(Comparator.comparing(Row::name))
                .toList();
    }

    private static Map<LocalDate, List<WeekPlanView.Stop>> byDay(List<WeekPlanView.Stop> stops) {
        return stops.stream().collect(Collectors.groupingBy(WeekPlanView.Stop::day, TreeMap::new, Collectors.toList()));
    }

    @GetMapping("/week-plans/{id}/why")
    String why(@PathVariable WeekPlanId id, @RequestParam PlannedVisitId visit, Model model) {
        return why(id, visit, "", model);
    }

    private String why(WeekPlanId id, PlannedVisitId visit, String refused, Model model) {
        WeekPlanView plan = plans.require(id);
        WeekReasons.Why why = reasons.why(id, visit);
        model.addAttribute("plan", plan);
        model.addAttribute("why", why);
        model.addAttribute("words", words);
        model.addAttribute("base", planned(why));
        model.addAttribute("refused", refused);
        return "rounds/plan-why";
    }

    /** What the place costs where it is now. */
    private static long planned(WeekReasons.Why why) {
        return why.answers().stream()
                .filter(WeekReasons.Answer::planned)
                .mapToLong(answer -> answer.reason().extraCost())
                .findFirst()
                .orElse(0);
    }

    /** What every place on the board would cost, so that a move is priced before it is made. */
    @GetMapping("/week-plans/{id}/prices")
    @ResponseBody
    List<Price> prices(@PathVariable WeekPlanId id, @RequestParam PlannedVisitId visit) {
        WeekReasons.Why why = reasons.why(id, visit);
        long base = planned(why);
        return why.answers().stream()
                .map(answer -> new Price(
                        answer.day().toString(),
                        answer.van().id().toString(),
                        answer.trip(),
                        answer.reason().shortages().isEmpty(),
                        words.verdict(answer, base)))
                .toList();
    }

    @PostMapping("/week-plans/{id}/move")
    String move(
            @PathVariable WeekPlanId id,
            @RequestParam String seen,
            @RequestParam PlannedVisitId visit,
            @RequestParam LocalDate day,
            @RequestParam VanId van,
            @RequestParam(defaultValue = "1") int trip,
            Model model,
            RedirectAttributes redirect) {
        try {
            reasons.move(id, seen, visit, day, van, trip);
        } catch (FieldRefusal refusal) {
            return why(id, visit, refusal.code(), model);
        }
        redirect.addFlashAttribute("flash", "rounds.plan.moved");
        WeekPlanView plan = plans.require(id);
        return "redirect:/week-plans/" + id + "?week=" + ChronoUnit.WEEKS.between(plan.firstDay(), day);
    }

    @PostMapping("/week-plans/{id}/stop")
    String stop(@PathVariable WeekPlanId id) {
        plans.stop(id);
        return "redirect:/week-plans/" + id;
    }

    @PostMapping("/week-plans/{id}/accept")
    String accept(@PathVariable WeekPlanId id, @RequestParam String seen, RedirectAttributes redirect) {
        try {
            plans.accept(id, seen);
            redirect.addFlashAttribute("flash", "rounds.plan.accepted");
        } catch (FieldRefusal refusal) {
            redirect.addFlashAttribute("refused", refusal.code());
        }
        return "redirect:/week-plans/" + id;
    }
}
