package app.tankround.tablet.web;

import app.tankround.rounds.StopId;
import app.tankround.tablet.DayBundle;
import app.tankround.visits.VisitId;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;

/** The page at the tank. It is the same for every visit; what it shows comes from the bundle. */
@Controller
class VisitPageController {

    private static final String PAGE = "tablet/visit";

    private final DayBundle bundle;

    VisitPageController(DayBundle bundle) {
        this.bundle = bundle;
    }

    @GetMapping("/visits/{id}")
    String visit(@PathVariable VisitId id) {
        bundle.dayOf(id);
        return PAGE;
    }

    /** The visit of a stop, started or not, at its own address. */
    @GetMapping("/visits/for-stop/{stopId}")
    String forStop(@PathVariable StopId stopId) {
        return "redirect:/visits/" + VisitId.ofStop(stopId);
    }

    /** The day of whoever is signed in. */
    @GetMapping("/day")
    String day() {
        return PAGE;
    }

    /** What a tablet keeps of all these, without anything of a person in it. */
    @GetMapping("/tablet/page")
    String page() {
        return PAGE;
    }
}
