package app.tankround.rounds.web;

import app.tankround.rounds.ArrivalPromises;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.StopId;
import app.tankround.web.FieldRefusal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Times that clients were told, and how many of them were kept. */
@Controller
class PromiseController {

    private final ArrivalPromises promises;

    PromiseController(ArrivalPromises promises) {
        this.promises = promises;
    }

    @GetMapping("/rounds/promises")
    String months(Model model) {
        model.addAttribute("months", promises.months());
        return "rounds/promises";
    }

    @PostMapping("/rounds/{id}/stops/{stop}/told")
    String told(@PathVariable RoundId id, @PathVariable StopId stop, RedirectAttributes redirect) {
        try {
            promises.tell(id, stop);
            redirect.addFlashAttribute("flash", "rounds.window.kept");
        } catch (FieldRefusal begunMeanwhile) {
            redirect.addFlashAttribute("flash", "rounds.window.begun");
        }
        return "redirect:/rounds/" + id;
    }

    @PostMapping("/rounds/{id}/told")
    String toldAll(@PathVariable RoundId id, RedirectAttributes redirect) {
        promises.tellAll(id);
        redirect.addFlashAttribute("flash", "rounds.window.kept");
        return "redirect:/rounds/" + id;
    }
}
