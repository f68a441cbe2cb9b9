package app.tankround.tablet.web;

import app.tankround.clients.SiteService;
import app.tankround.rounds.RoundChecks;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopView;
import app.tankround.schedule.DueCheck;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import app.tankround.web.NotFound;
import java.util.List;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;

/** The shell of the visit page; what it shows comes from the bundle. */
@Controller
class VisitPageController {

    private final VisitService visits;
    private final RoundService rounds;
    private final RoundChecks checks;
    private final SiteService sites;

    VisitPageController(VisitService visits, RoundService rounds, RoundChecks checks, SiteService sites) {
        this.visits = visits;
        this.rounds = rounds;
        this.checks = checks;
        this.sites = sites;
    }

    @GetMapping("/visits/{id}")
    String visit(@PathVariable VisitId id, Model model) {
        VisitView visit = visits.require(id);
        model.addAttribute("visit", visit);
        model.addAttribute("site", sites.require(visit.siteId()));
        visit.roundId().flatMap(rounds::find).ifPresent(round -> {
            model.addAttribute("round", round);
            model.addAttribute("checks", open(round));
            round.stops().stream()
                    .filter(stop -> visit.stopId().filter(stop.id()::equals).isPresent())
                    .findFirst()
                    .ifPresent(stop -> model.addAttribute("position", stop.position()));
        });
        return "tablet/visit";
    }

    /** The visit of a stop; before it is started, a page with the button that starts it. */
    @GetMapping("/visits/for-stop/{stopId}")
    String forStop(@PathVariable StopId stopId, Model model) {
        if (visits.forStop(stopId).isPresent()) {
            return "redirect:/visits/" + VisitId.ofStop(stopId);
        }
        RoundView round = rounds.byStop(stopId).orElseThrow(() -> new NotFound("stop", stopId));
        StopView stop = round.stops().stream()
                .filter(each -> each.id().equals(stopId))
                .findFirst()
                .orElseThrow(() -> new NotFound("stop", stopId));
        model.addAttribute("round", round);
        model.addAttribute("checks", open(round));
        model.addAttribute("stop", stop);
        model.addAttribute("site", sites.require(stop.siteId()));
        return "tablet/start";
    }

    private List<DueCheck> open(RoundView round) {
        return checks.of(round).stream().filter(DueCheck::isOpen).toList();
    }
}
