package app.tankround.loads.web;

import app.tankround.loads.LoadPages;
import app.tankround.loads.LoadReturns;
import app.tankround.loads.ReturnPage;
import app.tankround.loads.ReturnSheet;
import app.tankround.loads.Returned;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.RoundId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.StaleVersion;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What comes back from a round. */
@Controller
class ReturnController {

    private final LoadReturns returns;
    private final LoadPages pages;
    private final Clock clock;

    ReturnController(LoadReturns returns, LoadPages pages, Clock clock) {
        this.returns = returns;
        this.pages = pages;
        this.clock = clock;
    }

    @GetMapping("/rounds/{id}/load/return")
    String sheet(@PathVariable RoundId id, Model model, Locale locale) {
        ReturnSheet sheet = returns.of(id);
        model.addAttribute("form", ReturnForm.of(Uuids.next(clock.instant()), sheet));
        model.addAttribute("sheet", pages.of(sheet, locale));
        return "loads/return";
    }

    @PostMapping("/rounds/{id}/load/return")
    String bringBack(
            @PathVariable RoundId id,
            @ModelAttribute("form") ReturnForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        ReturnSheet sheet = returns.of(id);
        ReturnPage page = pages.of(sheet, locale);
        Optional<Map<String, Returned>> said = form.toCommand(new FormReader(result, locale), page);
        try {
            if (said.isPresent()) {
                returns.bringBack(id, FormReader.madeWith("load-return", form.getId()), form.getSeen(), said.get());
                redirect.addFlashAttribute("flash", "loads.return.done");
                return "redirect:/rounds/" + id + "/load/return";
            }
        } catch (FieldRefusal refusal) {
            form.show(refusal, result);
        } catch (StaleVersion changed) {
            // What was typed of other numbers says nothing of these.
            response.setStatus(HttpStatus.CONFLICT.value());
            model.addAttribute("form", ReturnForm.of(Uuids.next(clock.instant()), sheet));
            model.addAttribute("sheet", page);
            model.addAttribute("changed", true);
            return "loads/return";
        }
        response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
        model.addAttribute("sheet", page);
        return "loads/return";
    }
}
