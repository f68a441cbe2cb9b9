package app.tankround.clients.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Days;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.TapWater;
import app.tankround.clients.TapWaterView;
import app.tankround.persistence.Uuids;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitSystem;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.time.Clock;
import java.time.LocalDate;
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

/** Writing down how hard the tap water at a site is. */
@Controller
class TapWaterController {

    private final SiteService sites;
    private final TapWater tapWater;
    private final BusinessProfile business;
    private final Days days;
    private final MessageSource messages;
    private final Clock clock;

    TapWaterController(
            SiteService sites,
            TapWater tapWater,
            BusinessProfile business,
            Days days,
            MessageSource messages,
            Clock clock) {
        this.sites = sites;
        this.tapWater = tapWater;
        this.business = business;
        this.days = days;
        this.messages = messages;
        this.clock = clock;
    }

    @GetMapping("/sites/{id}/tap")
    String blank(@PathVariable UUID id, Model model, Locale locale) {
        show(SiteId.of(id), model, locale);
        MeasurementUnit unit = business.current().unitSystem() == UnitSystem.US_CUSTOMARY
                ? MeasurementUnit.MILLIGRAMS_PER_LITRE_CACO3
                : MeasurementUnit.DEGREE_GENERAL_HARDNESS;
        model.addAttribute(
                "form",
                new TapWaterForm(Uuids.next(clock.instant()).toString(), null, unit.name(), today().toString()));
        return "clients/tap-form";
    }

    @PostMapping("/sites/{id}/tap")
    String write(
            @PathVariable UUID id,
            @ModelAttribute("form") TapWaterForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        SiteId site = SiteId.of(id);
        UUID measurement = FormReader.madeWith("tap-water", form.id());
        Optional<TapWaterView> measured = form.toCommand(site, today(), new FormReader(result, locale));
        try {
            measured.ifPresent(read -> tapWater.write(measurement, read));
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        }
        if (result.hasErrors()) {
            show(site, model, locale);
            return "clients/tap-form";
        }
        redirect.addFlashAttribute("flash", "clients.saved");
        return "redirect:/sites/" + id;
    }

    private LocalDate today() {
        return days.of(clock.instant());
    }

    private void show(SiteId id, Model model, Locale locale) {
        model.addAttribute("site", sites.require(id));
        model.addAttribute(
                "units",
                Quantity.HARDNESS.units().stream()
                        .map(unit -> new Choice(
                                unit.name(), messages.getMessage("clients.tap.unit." + unit.name(), null, locale)))
                        .toList());
    }
}
