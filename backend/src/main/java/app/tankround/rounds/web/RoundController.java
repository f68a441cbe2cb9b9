package app.tankround.rounds.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.purification.DrawnWater;
import app.tankround.rounds.ArrivalPromises;
import app.tankround.rounds.MapBackground;
import app.tankround.rounds.MapBackgrounds;
import app.tankround.rounds.RoundChecks;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundSightings;
import app.tankround.rounds.RoundSightings.Sighting;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StaleOrder;
import app.tankround.rounds.StopDemand;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopMoves;
import app.tankround.rounds.StopView;
import app.tankround.rounds.solver.PlanningMethod;
import app.tankround.schedule.DueVisits;
import app.tankround.units.Mass;
import app.tankround.units.UnitSystem;
import app.tankround.web.Choice;
import app.tankround.web.DistanceText;
import app.tankround.web.FieldRefusal;
import app.tankround.web.MassText;
import app.tankround.web.PagePolicy;
import jakarta.servlet.http.HttpServletResponse;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** A day's rounds: which van goes where, in what order, and what that costs. */
@Controller
class RoundController {

    /** Which day is looked at; today if it cannot be read. */
    record DayForm(@Nullable LocalDate date) {}

    /** Put these sites on that van's round; on its first one where no other is named. */
    record PlanForm(
            @Nullable LocalDate date,
            @Nullable VanId van,
            @Nullable Integer trip,
            @Nullable LocalTime notBefore,
            @Nullable List<SiteId> sites) {}

    /** A round as the day's page lists it. */
    record RoundLine(RoundView round, List<RoundSheet.StopLine> stops, List<Load> load) {}

    /** What a van would leave with, and what it may carry. Planned by hand it may be too much; then it is said. */
    record Load(Mass mass, Mass payload) {

        public boolean tooHeavy() {
            return mass.kilograms() > payload.kilograms();
        }

        public Mass over() {
            return Mass.ofKilograms(Math.max(0, mass.kilograms() - payload.kilograms()));
        }
    }

    /**
     * A version of the round that somebody has seen.
     *
     * @param since what was done to the round after it was seen last, oldest first; empty where it stands as it was seen
     */
    record Seen(Sighting sighting, boolean asItStands, List<ChangeLog.Line> since) {}

    private final RoundService rounds;
    private final StopMoves moves;
    private final RoundSheet sheet;
    private final RoundChecks checks;
    private final ArrivalPromises promises;
    private final DrawnWater drawnWater;
    private final DueVisits dueVisits;
    private final Fleet fleet;
    private final SiteService sites;
    private final CurrentPerson currentPerson;
    private final MapBackgrounds backgrounds;
    private final BusinessProfile business;
    private final ObjectProvider<StopDemand> demand;
    private final ObjectProvider<RoundSightings> sightings;
    private final ChangeLog changes;

    RoundController(
            RoundService rounds,
            StopMoves moves,
            RoundSheet sheet,
            RoundChecks checks,
            ArrivalPromises promises,
            DrawnWater drawnWater,
            DueVisits dueVisits,
            Fleet fleet,
            SiteService sites,
            CurrentPerson currentPerson,
            MapBackgrounds backgrounds,
            BusinessProfile business,
            ObjectProvider<StopDemand> demand,
            ObjectProvider<RoundSightings> sightings,
            ChangeLog changes) {
        this.rounds = rounds;
        this.moves = moves;
        this.sheet = sheet;
        this.checks = checks;
        this.promises = promises;
        this.drawnWater = drawnWater;
        this.dueVisits = dueVisits;
        this.fleet = fleet;
        this.sites = sites;
        this.currentPerson = currentPerson;
        this.backgrounds = backgrounds;
        this.business = business;
        this.demand = demand;
        this.sightings = sightings;
        this.changes = changes;
    }

    @GetMapping("/rounds")
    String day(@ModelAttribute("day") DayForm day, BindingResult result, Model model) {
        LocalDate date = Optional.ofNullable(day).map(DayForm::date).orElseGet(dueVisits::today);
        model.addAttribute("form", new PlanForm(date, null, 1, null, null));
        return day(date, model);
    }

    /** A technician lands on the round of today, of several on the first that is not done; everybody else, and one who has none, on the day. */
    @GetMapping("/rounds/today")
    String today() {
        PersonView person = currentPerson.require();
        List<RoundView> own = rounds.forTechnician(person.id(), dueVisits.today());
        return own.stream()
                .filter(round -> round.nextStop().isPresent())
                .findFirst()
                .or(() -> own.stream().findFirst())
                .map(round -> "redirect:/rounds/" + round.id())
                .orElse("redirect:/rounds");
    }

    @PostMapping("/rounds")
    String plan(@ModelAttribute("form") PlanForm form, BindingResult result, Model model, RedirectAttributes redirect) {
        LocalDate date = Optional.ofNullable(form.date()).orElseGet(dueVisits::today);
        if (!result.hasErrors()) {
            try {
                VanId van = form.van();
                if (van == null) {
                    throw new FieldRefusal("van", "rounds.van-missing");
                }
                RoundId id = rounds.plan(
                        date,
                        van,
                        Optional.ofNullable(form.trip()).orElse(1),
                        form.notBefore(),
                        Optional.ofNullable(form.sites()).orElse(List.of()));
                redirect.addFlashAttribute("flash", "rounds.planned");
                return "redirect:/rounds/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        model.addAttribute("day", new DayForm(date));
        return day(date, model);
    }

    private String day(LocalDate date, Model model) {
        model.addAttribute("date", date);
        model.addAttribute("today", dueVisits.today());
        model.addAttribute("previous", date.minusDays(1));
        model.addAttribute("following", date.plusDays(1));
        model.addAttribute(
                "rounds",
                rounds.on(date).stream()
                        .map(round -> new RoundLine(round, sheet.stops(round), load(round)))
                        .toList());
        model.addAttribute("due", sheet.due(rounds.dueStops(date)));
        model.addAttribute(
                "vans",
                fleet.vans().stream()
                        .map(van -> new Choice(van.id().toString(), van.name()))
                        .toList());
        return "rounds/day";
    }

    @GetMapping("/rounds/{id}")
    String round(@PathVariable RoundId id, Model model, Locale locale, HttpServletResponse response) {
        RoundView round = rounds.require(id);
        MapBackground background = backgrounds.current();
        background
                .origin()
                .ifPresent(origin -> response.setHeader(PagePolicy.HEADER, PagePolicy.withPicturesFrom(origin)));
        model.addAttribute("background", background);
        model.addAttribute("imperial", business.unitSystem() == UnitSystem.US_CUSTOMARY);
        List<RoundSheet.StopLine> stops = sheet.stops(round);
        model.addAttribute("round", round);
        model.addAttribute("others", rounds.othersOfVan(round));
        model.addAttribute("groups", RoundSheet.groups(stops));
        model.addAttribute(
                "next", stops.stream().filter(RoundSheet.StopLine::next).toList());
        model.addAttribute(
                "finished",
                round.stops().stream()
                        .filter(stop -> stop.finishedAt().isPresent())
                        .count());
        model.addAttribute("checks", checks.of(round));
        model.addAttribute("drawnWater", drawnWater.at(round.van().depotId(), locale));
        model.addAttribute("today", dueVisits.today());
        int work = stops.stream().mapToInt(RoundSheet.StopLine::minutes).sum();
        model.addAttribute("workHours", work / 60);
        model.addAttribute("workMinutes", work % 60);
        sites.ofDepot(round.van().depotId())
                .ifPresent(depot -> model.addAttribute(
                        "map",
                        RoundMap.of(
                                depot,
                                stops.stream().map(RoundSheet.StopLine::site).toList(),
                                new DistanceText(locale, business.unitSystem()))));
        model.addAttribute("guessed", rounds.guessedLegs(id));
        model.addAttribute("windows", promises.windows(id));
        model.addAttribute("drivingMinutes", Math.ceilDiv(round.drivingSeconds(), 60));
        model.addAttribute("load", load(round));
        model.addAttribute("seen", seen(round));
        model.addAttribute("zone", business.zone());
        if (round.method() == PlanningMethod.GIVEN) {
            model.addAttribute("cost", rounds.cost(id, order(round)));
        } else {
            model.addAttribute("broken", rounds.broken(id));
        }
        return "rounds/round";
    }

    private List<Seen> seen(RoundView round) {
        List<Sighting> all = Optional.ofNullable(sightings.getIfAvailable()).stream()
                .flatMap(each -> each.of(round.id()).stream())
                .toList();
        List<ChangeLog.Line> lines = all.isEmpty()
                ? List.of()
                : changes.of("round", round.id().value()).reversed();
        return all.stream()
                .map(sighting -> {
                    boolean asItStands = sighting.version() == round.version();
                    return new Seen(
                            sighting,
                            asItStands,
                            lines.stream()
                                    .filter(line ->
                                            !asItStands && line.changedAt().isAfter(sighting.lastAt()))
                                    .toList());
                })
                .toList();
    }

    /** Nothing where nobody works loads out. */
    private List<Load> load(RoundView round) {
        return Optional.ofNullable(demand.getIfAvailable()).stream()
                .map(each -> new Load(
                        each.departures(List.of(round)).getFirst(), round.van().payload()))
                .toList();
    }

    @ModelAttribute("masses")
    MassText masses(Locale locale) {
        return new MassText(locale, business.current().unitSystem());
    }

    private static List<StopId> order(RoundView round) {
        return round.stops().stream().map(StopView::id).toList();
    }

    @GetMapping("/rounds/{id}/order")
    String order(@PathVariable RoundId id, Model model) {
        RoundView round = rounds.require(id);
        return ordering(round, order(round), round.version(), false, model);
    }

    /** Moves one stop and shows what that costs, or keeps the order; only keeping saves anything. */
    @PostMapping("/rounds/{id}/order")
    String order(
            @PathVariable RoundId id,
            @RequestParam int version,
            @RequestParam List<StopId> order,
            @RequestParam(required = false) @Nullable String move,
            Model model,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        if (move != null) {
            return ordering(rounds.require(id), moved(order, move), version, true, model);
        }
        try {
            rounds.reorder(id, version, order);
        } catch (StaleOrder stale) {
            response.setStatus(HttpStatus.CONFLICT.value());
            RoundView current = stale.current();
            model.addAttribute("round", current);
            model.addAttribute("theirs", sheet.stops(current));
            model.addAttribute("yours", inOrder(current, stale.asked()));
            model.addAttribute("sameStops", Set.copyOf(stale.asked()).equals(Set.copyOf(order(current))));
            model.addAttribute("asked", stale.asked());
            return "rounds/order-conflict";
        }
        redirect.addFlashAttribute("flash", "rounds.order-kept");
        return "redirect:/rounds/" + id;
    }

    /** The order with the named stop one place up or down, as {@code up:ID} or {@code down:ID}. */
    private static List<StopId> moved(List<StopId> order, String move) {
        List<StopId> moved = new ArrayList<>(order);
        boolean up = move.startsWith("up:");
        int at = moved.indexOf(StopId.parse(move.substring(move.indexOf(':') + 1)));
        int to = up ? at - 1 : at + 1;
        if (at >= 0 && to >= 0 && to < moved.size()) {
            Collections.swap(moved, at, to);
        }
        return moved;
    }

    private String ordering(RoundView round, List<StopId> order, int version, boolean changed, Model model) {
        model.addAttribute("round", round);
        model.addAttribute("stops", inOrder(round, order));
        model.addAttribute("version", version);
        model.addAttribute("changed", changed);
        model.addAttribute("cost", rounds.cost(round.id(), order));
        return "rounds/order";
    }

    /** The stops in that order; those the round no longer has are left out. */
    private List<RoundSheet.StopLine> inOrder(RoundView round, List<StopId> order) {
        Map<StopId, RoundSheet.StopLine> known = sheet.stops(round).stream()
                .collect(Collectors.toMap(line -> line.stop().id(), Function.identity()));
        return order.stream()
                .flatMap(id -> Optional.ofNullable(known.get(id)).stream())
                .toList();
    }

    @PostMapping("/rounds/{id}/best-order")
    String bestOrder(@PathVariable RoundId id, @RequestParam int version, RedirectAttributes redirect) {
        rounds.replan(id, version);
        redirect.addFlashAttribute("flash", "rounds.ordered-best");
        return "redirect:/rounds/" + id;
    }

    @PostMapping("/rounds/{id}/lock")
    String lock(
            @PathVariable RoundId id,
            @RequestParam int version,
            @RequestParam boolean locked,
            RedirectAttributes redirect) {
        rounds.lock(id, version, locked);
        redirect.addFlashAttribute("flash", locked ? "rounds.was-locked" : "rounds.was-unlocked");
        return "redirect:/rounds/" + id;
    }

    @PostMapping("/rounds/{id}/stops/{stop}/remove")
    String removeStop(
            @PathVariable RoundId id,
            @PathVariable StopId stop,
            @RequestParam int version,
            RedirectAttributes redirect) {
        rounds.removeStop(id, version, stop);
        redirect.addFlashAttribute("flash", "rounds.stop-removed");
        return "redirect:/rounds/" + id;
    }

    @PostMapping("/rounds/{id}/stops/{stop}/move")
    String moveStop(
            @PathVariable RoundId id,
            @PathVariable StopId stop,
            @RequestParam int version,
            @RequestParam RoundId to,
            RedirectAttributes redirect) {
        RoundView other = rounds.require(to);
        moves.move(
                id,
                version,
                List.of(stop),
                new StopMoves.Target(other.date(), other.van().id(), other.trip()));
        redirect.addFlashAttribute("flash", "rounds.stop-moved");
        return "redirect:/rounds/" + to;
    }

    @PostMapping("/rounds/{id}/delete")
    String delete(@PathVariable RoundId id, @RequestParam int version, RedirectAttributes redirect) {
        LocalDate date = rounds.require(id).date();
        rounds.delete(id, version);
        redirect.addFlashAttribute("flash", "rounds.deleted");
        return "redirect:/rounds?date=" + date;
    }
}
