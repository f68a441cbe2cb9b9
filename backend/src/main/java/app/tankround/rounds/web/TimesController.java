package app.tankround.rounds.web;

import app.tankround.rounds.RoundTimes;
import app.tankround.rounds.TimeRules;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import app.tankround.web.VersionedForm;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** How long things take, as planning reckons, and what trips taught. */
@Controller
class TimesController {

    /** The rules as a form sends them; a box that is not ticked sends nothing. */
    record TimesForm(
            int version,
            boolean learnedMinutes,
            boolean learnedTravel,
            @Nullable String confidence) implements VersionedForm<TimesForm> {

        static TimesForm of(TimeRules rules) {
            return new TimesForm(
                    rules.version(), rules.learnedMinutes(), rules.learnedTravel(), String.valueOf(rules.confidence()));
        }

        @Override
        public TimesForm withVersion(int newest) {
            return new TimesForm(newest, learnedMinutes, learnedTravel, confidence);
        }

        Optional<TimeRules> toRules(FormReader reader) {
            return reader.requiredWhole("confidence", confidence, TimeRules.LEAST_CONFIDENCE, TimeRules.MOST_CONFIDENCE)
                    .map(percent -> new TimeRules(learnedMinutes, learnedTravel, percent, version));
        }
    }

    private final RoundTimes times;

    TimesController(RoundTimes times) {
        this.times = times;
    }

    @GetMapping("/rounds/times")
    String show(Model model) {
        model.addAttribute("form", TimesForm.of(times.rules()));
        return page(model);
    }

    @PostMapping("/rounds/times")
    String choose(
            @ModelAttribute("form") TimesForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        form.toRules(new FormReader(result, locale)),
                        times::choose,
                        () -> TimesForm.of(times.rules()))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/rounds/times";
        }
        return page(model);
    }

    private String page(Model model) {
        model.addAttribute("hours", times.hours());
        return "rounds/times";
    }
}
