package app.tankround.loads.web;

import app.tankround.loads.DemandSources;
import app.tankround.rounds.RoundId;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;

/** For what a load is needed. */
@Controller
class DemandController {

    private final DemandSources sources;

    DemandController(DemandSources sources) {
        this.sources = sources;
    }

    @GetMapping("/rounds/{id}/load/sources")
    String sources(@PathVariable RoundId id, Model model) {
        model.addAttribute("round", id);
        model.addAttribute("stops", sources.of(id));
        return "loads/sources";
    }
}
