package app.tankround.clients.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.clients.ClientId;
import app.tankround.clients.ClientService;
import app.tankround.clients.NewSite;
import app.tankround.clients.SiteDetails;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsService;
import app.tankround.clients.SiteSafetyService;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.clients.TapWater;
import app.tankround.persistence.Uuids;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import app.tankround.web.ShownMeasures;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

@Controller
class SiteController {

    private final ClientService clients;
    private final SiteService sites;
    private final SiteSections sections;
    private final SiteSafetyService safety;
    private final SiteNeedsService needs;
    private final TapWater tapWater;
    private final BusinessProfile business;
    private final Clock clock;

    SiteController(
            ClientService clients,
            SiteService sites,
            SiteSections sections,
            SiteSafetyService safety,
            SiteNeedsService needs,
            TapWater tapWater,
            BusinessProfile business,
            Clock clock) {
        this.clients = clients;
        this.sites = sites;
        this.sections = sections;
        this.safety = safety;
        this.needs = needs;
        this.tapWater = tapWater;
        this.business = business;
        this.clock = clock;
    }

    @ModelAttribute("measures")
    ShownMeasures measures() {
        return ShownMeasures.of(business.current().unitSystem());
    }

    @GetMapping("/sites/{id}")
    String site(@PathVariable UUID id, Model model) {
        SiteView site = sites.require(SiteId.of(id));
        model.addAttribute("place", sections.of(site));
        model.addAttribute("safety", safety.of(site.id()));
        model.addAttribute("needs", needs.of(site.id()));
        tapWater.latest(site.id()).ifPresent(tap -> model.addAttribute("tap", tap));
        return "clients/site";
    }

    /** @param client whose site it will be; without one it is the business's own depot */
    @GetMapping("/sites/new")
    String blank(@RequestParam(required = false) @Nullable UUID client, Model model) {
        showOwner(client == null ? null : ClientId.of(client), model);
        model.addAttribute("form", SiteForm.blank(SiteId.of(Uuids.next(clock.instant())), sites.nextCode()));
        return "clients/site-form";
    }

    @PostMapping("/sites/new")
    String add(
            @RequestParam(required = false) @Nullable UUID client,
            @ModelAttribute("form") SiteForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        ClientId clientId = client == null ? null : ClientId.of(client);
        showOwner(clientId, model);
        SiteId id = SiteId.of(FormReader.madeWith("site", form.id()));
        Optional<SiteDetails> details =
                form.toCommand(clientId, new FormReader(result, locale), measures(), Optional.empty());
        if (new SentForm(result, model, response)
                .saved(form, details, read -> sites.add(new NewSite(id, read)), () -> stored(id, model, locale))) {
            redirect.addFlashAttribute("flash", "clients.saved");
            return "redirect:/sites/" + id;
        }
        return "clients/site-form";
    }

    @GetMapping("/sites/{id}/edit")
    String edit(@PathVariable UUID id, Model model, Locale locale) {
        SiteView site = sites.require(SiteId.of(id));
        showOwner(site.clientId().orElse(null), model);
        model.addAttribute("site", site);
        model.addAttribute("form", SiteForm.of(site, measures(), locale));
        return "clients/site-form";
    }

    @PostMapping("/sites/{id}/edit")
    String change(
            @PathVariable UUID id,
            @ModelAttribute("form") SiteForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        SiteView site = sites.require(SiteId.of(id));
        ClientId clientId = site.clientId().orElse(null);
        showOwner(clientId, model);
        model.addAttribute("site", site);
        Optional<SiteDetails> details =
                form.toCommand(clientId, new FormReader(result, locale), measures(), Optional.of(site));
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        details,
                        read -> sites.change(site.id(), form.version(), read),
                        () -> stored(site.id(), model, locale))) {
            redirect.addFlashAttribute("flash", "clients.saved");
            return "redirect:/sites/" + id;
        }
        return "clients/site-form";
    }

    private SiteForm stored(SiteId id, Model model, Locale locale) {
        SiteView site = sites.require(id);
        model.addAttribute("site", site);
        return SiteForm.of(site, measures(), locale);
    }

    private void showOwner(@Nullable ClientId clientId, Model model) {
        if (clientId != null) {
            model.addAttribute("client", clients.require(clientId));
        }
    }
}
