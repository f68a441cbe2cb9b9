package app.tankround.clients.web;

import app.tankround.clients.LoneHazard;
import app.tankround.clients.ResidualCurrentTest;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteSafetyDetails;
import app.tankround.clients.SiteSafetyService;
import app.tankround.clients.SiteService;
import app.tankround.web.Choice;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What was agreed with a site that keeps people from harm there. */
@Controller
class SafetyController {

    private final SiteService sites;
    private final SiteSafetyService safety;
    private final MessageSource messages;

    SafetyController(SiteService sites, SiteSafetyService safety, MessageSource messages) {
        this.sites = sites;
        this.safety = safety;
        this.messages = messages;
    }

    @GetMapping("/sites/{id}/safety")
    String edit(@PathVariable UUID id, Model model, Locale locale) {
        show(SiteId.of(id), model, locale);
        model.addAttribute("form", SafetyForm.of(safety.of(SiteId.of(id))));
        return "clients/safety-form";
    }

    @PostMapping("/sites/{id}/safety")
    String change(
            @PathVariable UUID id,
            @ModelAttribute("form") SafetyForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        SiteId site = SiteId.of(id);
        show(site, model, locale);
        Optional<SiteSafetyDetails> details = form.toCommand(new FormReader(result, locale));
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        details,
                        read -> safety.change(site, form.version(), read),
                        () -> SafetyForm.of(safety.of(site)))) {
            redirect.addFlashAttribute("flash", "clients.saved");
            return "redirect:/sites/" + id;
        }
        return "clients/safety-form";
    }

    private void show(SiteId id, Model model, Locale locale) {
        model.addAttribute("site", sites.require(id));
        model.addAttribute(
                "residualCurrentTests",
                choices(ResidualCurrentTest.values(), "clients.safety.residualCurrentTest.", locale));
        model.addAttribute("hazards", choices(LoneHazard.values(), "clients.safety.checkInFor.", locale));
    }

    private List<Choice> choices(Enum<?>[] values, String prefix, Locale locale) {
        return Arrays.stream(values)
                .map(value -> new Choice(value.name(), messages.getMessage(prefix + value.name(), null, locale)))
                .toList();
    }
}
