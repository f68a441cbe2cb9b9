package app.tankround.clients.web;

import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsDetails;
import app.tankround.clients.SiteNeedsService;
import app.tankround.clients.SiteService;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.time.DayOfWeek;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BeanPropertyBindingResult;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What a stop at a site needs and when it can be. */
@Controller
class NeedsController {

    private static final String PAGE = "clients/needs-form";

    private final SiteService sites;
    private final SiteNeedsService needs;

    NeedsController(SiteService sites, SiteNeedsService needs) {
        this.sites = sites;
        this.needs = needs;
    }

    @GetMapping("/sites/{id}/needs")
    String edit(@PathVariable UUID id, Model model) {
        show(SiteId.of(id), model);
        model.addAttribute("form", NeedsForm.of(needs.of(SiteId.of(id))));
        return PAGE;
    }

    @PostMapping("/sites/{id}/needs")
    String change(
            @PathVariable UUID id,
            @ModelAttribute("form") NeedsForm typed,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect,
            @RequestParam(required = false) @Nullable String row) {
        SiteId site = SiteId.of(id);
        show(site, model);
        NeedsForm form = row == null ? typed.withoutEmptyRows() : typed.withOneMoreClosure();
        // The page shows the form without its empty rows, so refusals are bound to that one.
        BindingResult refusals = new BeanPropertyBindingResult(form, "form");
        model.addAttribute("form", form);
        model.addAttribute(BindingResult.MODEL_KEY_PREFIX + "form", refusals);
        if (row != null) {
            return PAGE;
        }
        Optional<SiteNeedsDetails> details = form.toCommand(new FormReader(refusals, locale));
        if (new SentForm(refusals, model, response)
                .saved(
                        form,
                        details,
                        read -> needs.change(site, form.version(), read),
                        () -> NeedsForm.of(needs.of(site)))) {
            redirect.addFlashAttribute("flash", "clients.saved");
            return "redirect:/sites/" + id;
        }
        return PAGE;
    }

    private void show(SiteId id, Model model) {
        model.addAttribute("site", sites.require(id));
        model.addAttribute("days", DayOfWeek.values());
    }
}
