package app.tankround.tanks.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetPresetView;
import app.tankround.tanks.TargetPresets;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What each quantity of a system is meant to be, and what a new system of a kind starts with. */
@Controller
class TargetsController {

    private static final String DEFAULT_GRAVITY_REFERENCE = "20/20";

    private final WaterSystems systems;
    private final TargetPresets presets;
    private final Words words;
    private final BusinessProfile business;

    TargetsController(WaterSystems systems, TargetPresets presets, Words words, BusinessProfile business) {
        this.systems = systems;
        this.presets = presets;
        this.words = words;
        this.business = business;
    }

    @GetMapping("/systems/{id}/targets")
    String edit(@PathVariable UUID id, Model model, Locale locale) {
        model.addAttribute("form", stored(WaterSystemId.of(id), model, locale));
        return "tanks/targets-form";
    }

    @PostMapping("/systems/{id}/targets")
    String change(
            @PathVariable UUID id,
            @ModelAttribute("form") TargetsForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        WaterSystemView system = show(WaterSystemId.of(id), model, locale);
        Optional<List<TargetRange>> targets = form.toCommand(new FormReader(result, locale));
        boolean saved = new SentForm(result, model, response)
                .saved(
                        form,
                        targets,
                        read -> systems.changeTargets(system.id(), form.version(), read),
                        () -> stored(system.id(), model, locale));
        if (saved) {
            redirect.addFlashAttribute("flash", "tanks.saved");
            return "redirect:/systems/" + id;
        }
        return "tanks/targets-form";
    }

    private TargetsForm stored(WaterSystemId id, Model model, Locale locale) {
        WaterSystemView system = show(id, model, locale);
        return TargetsForm.of(system.version(), systems.targets(id), words.figures(locale), gravityReference());
    }

    private WaterSystemView show(WaterSystemId id, Model model, Locale locale) {
        WaterSystemView system = systems.require(id);
        model.addAttribute("system", system);
        model.addAttribute("units", units(locale));
        return system;
    }

    @GetMapping("/target-presets")
    String presets(Model model, Locale locale) {
        model.addAttribute("presets", presets.all());
        model.addAttribute("figures", words.figures(locale));
        return "tanks/presets";
    }

    @GetMapping("/target-presets/{kind}")
    String editPreset(@PathVariable SystemKind kind, Model model, Locale locale) {
        model.addAttribute("form", storedPreset(kind, model, locale));
        return "tanks/preset-form";
    }

    @PostMapping("/target-presets/{kind}")
    String changePreset(
            @PathVariable SystemKind kind,
            @ModelAttribute("form") TargetsForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        showPreset(kind, model, locale);
        Optional<List<TargetRange>> targets = form.toCommand(new FormReader(result, locale));
        boolean saved = new SentForm(result, model, response)
                .saved(form, targets, read -> change(kind, form, read), () -> storedPreset(kind, model, locale));
        if (saved) {
            redirect.addFlashAttribute("flash", "tanks.saved");
            return "redirect:/target-presets";
        }
        return "tanks/preset-form";
    }

    private void change(SystemKind kind, TargetsForm form, List<TargetRange> targets) {
        try {
            presets.change(kind, form.version(), targets);
        } catch (FieldRefusal refusal) {
            throw form.atLine(refusal);
        }
    }

    private TargetsForm storedPreset(SystemKind kind, Model model, Locale locale) {
        TargetPresetView preset = showPreset(kind, model, locale);
        return TargetsForm.of(preset.version(), preset.targets(), words.figures(locale), gravityReference());
    }

    private TargetPresetView showPreset(SystemKind kind, Model model, Locale locale) {
        TargetPresetView preset = presets.require(kind);
        model.addAttribute("preset", preset);
        model.addAttribute("units", units(locale));
        return preset;
    }

    private Map<String, List<Choice>> units(Locale locale) {
        return Quantity.ofWater().stream()
                .collect(Collectors.toMap(
                        Quantity::name,
                        quantity -> quantity.units().stream()
                                .map(unit -> new Choice(unit.code(), words.word("tanks.unit." + unit.name(), locale)))
                                .toList()));
    }

    private String gravityReference() {
        return business.find().map(BusinessSettings::gravityReference).orElse(DEFAULT_GRAVITY_REFERENCE);
    }
}
