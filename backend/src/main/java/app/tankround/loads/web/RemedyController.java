package app.tankround.loads.web;

import app.tankround.accounts.VanId;
import app.tankround.loads.Remedies;
import app.tankround.loads.Remedy;
import app.tankround.loads.RemedyPages;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopMoves;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.web.FieldRefusal;
import jakarta.servlet.http.HttpServletResponse;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
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

/** What can be done about a round that does not fit into its van, and doing it. */
@Controller
class RemedyController {

    /** One way, as its form sends it. */
    record ChoiceForm(
            @Nullable Integer version,
            Remedy.@Nullable Kind kind,
            @Nullable List<StopId> stops,
            @Nullable LocalDate date,
            @Nullable VanId van,
            @Nullable Integer trip,
            @Nullable List<PlannedVisitId> visits,
            @Nullable List<BigDecimal> litres) {

        Remedy.Choice choice() {
            return switch (required(kind)) {
                case LOAD_AGAIN, OTHER_VAN, POSTPONE ->
                    new Remedy.Choice.Move(
                            required(kind),
                            listed(stops),
                            new StopMoves.Target(required(date), required(van), required(trip)));
                case MIX_ON_SITE -> new Remedy.Choice.Mix(listed(visits));
                case REFILL_ON_THE_WAY -> new Remedy.Choice.Refill(litresAt(listed(visits), listed(litres)));
                case SMALLER_CHANGE -> new Remedy.Choice.Less(litresAt(listed(visits), listed(litres)));
            };
        }

        private static Map<PlannedVisitId, BigDecimal> litresAt(List<PlannedVisitId> visits, List<BigDecimal> litres) {
            if (visits.size() != litres.size()) {
                throw malformed();
            }
            Map<PlannedVisitId, BigDecimal> byVisit = new HashMap<>();
            for (int k = 0; k < visits.size(); k++) {
                byVisit.put(visits.get(k), litres.get(k));
            }
            return byVisit;
        }

        private static <T> List<T> listed(@Nullable List<T> values) {
            if (values == null || values.isEmpty() || values.contains(null)) {
                throw malformed();
            }
            return values;
        }

        private static <T> T required(@Nullable T value) {
            return Optional.ofNullable(value).orElseThrow(ChoiceForm::malformed);
        }

        private static FieldRefusal malformed() {
            return new FieldRefusal("", "loads.remedy.malformed");
        }
    }

    private final Remedies remedies;
    private final RemedyPages pages;

    RemedyController(Remedies remedies, RemedyPages pages) {
        this.remedies = remedies;
        this.pages = pages;
    }

    @GetMapping("/rounds/{id}/remedies")
    String remedies(
            @PathVariable RoundId id,
            @ModelAttribute("form") ChoiceForm form,
            BindingResult result,
            Model model,
            Locale locale) {
        model.addAttribute("page", pages.of(id, locale));
        return "loads/remedies";
    }

    /** What cannot be done any more is said above what can. */
    @PostMapping("/rounds/{id}/remedies")
    String apply(
            @PathVariable RoundId id,
            @ModelAttribute("form") ChoiceForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        try {
            if (result.hasErrors()) {
                throw ChoiceForm.malformed();
            }
            remedies.apply(id, ChoiceForm.required(form.version()), form.choice());
            redirect.addFlashAttribute("flash", "loads.remedy.done");
            return "redirect:/rounds/" + id + "/load";
        } catch (FieldRefusal refusal) {
            response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
            result.reject(refusal.code(), refusal.args().toArray(), refusal.code());
            return remedies(id, form, result, model, locale);
        }
    }

    @PostMapping("/rounds/{id}/remedies/back")
    String takeBack(@PathVariable RoundId id, @RequestParam PlannedVisitId visit, RedirectAttributes redirect) {
        remedies.takeBack(id, visit);
        redirect.addFlashAttribute("flash", "loads.remedy.taken-back");
        return "redirect:/rounds/" + id + "/remedies";
    }
}
