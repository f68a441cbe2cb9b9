package app.tankround.rounds.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.rounds.PlanningSettings;
import app.tankround.rounds.PlanningTerms;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What planning costs and keeps to. */
@Controller
class TermsController {

    private static final String PAGE = "rounds/terms";

    private final PlanningSettings settings;
    private final BusinessProfile business;

    TermsController(PlanningSettings settings, BusinessProfile business) {
        this.settings = settings;
        this.business = business;
    }

    @GetMapping("/week-plans/terms")
    String terms(Model model, Locale locale) {
        show(model);
        model.addAttribute("form", TermsForm.of(settings.current(), locale));
        return PAGE;
    }

    @PostMapping("/week-plans/terms")
    String change(
            @ModelAttribute("form") TermsForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        show(model);
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        form.toCommand(new FormReader(result, locale)),
                        settings::change,
                        () -> TermsForm.of(settings.current(), locale))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/week-plans/terms";
        }
        return PAGE;
    }

    /** What is kept now, in minutes on the road too, so that one cost can be held against another. */
    private void show(Model model) {
        PlanningTerms terms = settings.current();
        Map<String, BigDecimal> sums = new LinkedHashMap<>();
        sums.put("drivingHour", terms.drivingHour());
        sums.put("kilometre", terms.kilometre());
        sums.put("overtimeHour", terms.overtimeHour());
        sums.put("round", terms.round());
        sums.put("dayBeyond", terms.dayBeyond());
        sums.put("stranger", terms.stranger());
        sums.put("promise", terms.promise());
        sums.put("lateHour", terms.lateHour());
        sums.put("unevenHour", terms.unevenHour());
        sums.put("disinfection", terms.disinfection());
        sums.put("reload", terms.reload());
        sums.put("leftOut", terms.leftOut());
        Map<String, Long> minutes = new LinkedHashMap<>();
        sums.forEach((field, sum) -> terms.minutesOnTheRoad(sum).ifPresent(worth -> minutes.put(field, worth)));
        model.addAttribute("sums", sums.keySet());
        model.addAttribute("minutes", minutes);
        model.addAttribute("currency", business.current().currency().getCode());
    }
}
