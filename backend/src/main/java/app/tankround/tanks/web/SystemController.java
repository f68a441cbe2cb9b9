package app.tankround.tanks.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.clients.SiteService;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.NewWaterSystem;
import app.tankround.tanks.SystemDetails;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetPresets;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.VolumeBasis;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.Choice;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
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
class SystemController {

    private final WaterSystems systems;
    private final TargetPresets targetPresets;
    private final SiteService sites;
    private final SystemSections sections;
    private final History history;
    private final Words words;
    private final BusinessProfile business;
    private final Clock clock;

    SystemController(
            WaterSystems systems,
            TargetPresets targetPresets,
            SiteService sites,
            SystemSections sections,
            History history,
            Words words,
            BusinessProfile business,
            Clock clock) {
        this.systems = systems;
        this.targetPresets = targetPresets;
        this.sites = sites;
        this.sections = sections;
        this.history = history;
        this.words = words;
        this.business = business;
        this.clock = clock;
    }

    @GetMapping("/systems")
    String list(
            @RequestParam(required = false) @Nullable String text,
            @RequestParam(required = false) @Nullable String kind,
            @RequestParam(required = false) @Nullable String infectionClass,
            Model model,
            Locale locale) {
        SystemKind ofKind = chosen(kind, SystemKind.class);
        InfectionClass ofClass = chosen(infectionClass, InfectionClass.class);
        Figures figures = words.figures(locale);
        String sought = Objects.requireNonNullElse(text, "");
        model.addAttribute("text", sought);
        model.addAttribute("chosenKind", ofKind == null ? "" : ofKind.name());
        model.addAttribute("chosenClass", ofClass == null ? "" : ofClass.name());
        model.addAttribute("kinds", words.choices("tanks.kind", SystemKind.class, locale));
        model.addAttribute("classes", words.choices("tanks.class", InfectionClass.class, locale));
        model.addAttribute("figures", figures);
        model.addAttribute(
                "lines",
                systems.search(sought, ofKind, ofClass).stream()
                        .map(line -> Map.of(
                                "system",
                                line,
                                "state",
                                sections.state(line.id(), line.infectionClass(), line.classSince(), figures)))
                        .toList());
        return "tanks/list";
    }

    @GetMapping("/systems/{id}")
    String system(@PathVariable UUID id, Model model, Locale locale) {
        WaterSystemView system = systems.require(WaterSystemId.of(id));
        Figures figures = words.figures(locale);
        ZoneId zone = business.zone();
        model.addAttribute("figures", figures);
        model.addAttribute("place", sites.require(system.siteId()));
        model.addAttribute("whole", sections.whole(system, figures));
        model.addAttribute("history", history.of(system.id(), figures, zone));
        return "tanks/system";
    }

    @GetMapping("/systems/new")
    String blank(@RequestParam(required = false) @Nullable UUID site, Model model, Locale locale) {
        WaterSystemId id = WaterSystemId.of(Uuids.next(clock.instant()));
        model.addAttribute(
                "form",
                SystemForm.blank(id, systems.nextCode(), site == null ? null : site.toString(), systems.today()));
        return systemForm(model, locale);
    }

    @PostMapping("/systems/new")
    String add(
            @ModelAttribute("form") SystemForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        WaterSystemId id = WaterSystemId.of(FormReader.madeWith("water-system", form.id()));
        LocalDate today = systems.today();
        FormReader reader = new FormReader(result, locale);
        Optional<InfectionClass> infectionClass =
                reader.choice("infectionClass", form.infectionClass(), InfectionClass.class);
        Optional<LocalDate> since =
                reader.requiredDate("classSince", form.classSince(), SystemForm.FIRST_DAY, today.plusDays(1));
        Optional<SystemDetails> details = form.toCommand(reader, words.figures(locale), today, Optional.empty());
        if (details.isPresent()) {
            Optional<NewWaterSystem> added = reader.read(() -> new NewWaterSystem(
                    id,
                    details.get(),
                    infectionClass.orElseThrow(),
                    since.orElseThrow(),
                    form.samplePointNames(),
                    preset(form.preset(), details.get().kind())));
            if (new SentForm(result, model, response)
                    .saved(form, added, systems::add, () -> stored(id, model, locale))) {
                redirect.addFlashAttribute("flash", "tanks.saved");
                return "redirect:/systems/" + id;
            }
        }
        return systemForm(model, locale);
    }

    private List<TargetRange> preset(@Nullable String chosen, SystemKind kind) {
        if (SystemForm.NO_PRESET.equals(chosen)) {
            return List.of();
        }
        SystemKind of = chosen(chosen, SystemKind.class);
        return targetPresets.of(of == null ? kind : of);
    }

    @GetMapping("/systems/{id}/edit")
    String edit(@PathVariable UUID id, Model model, Locale locale) {
        model.addAttribute("form", stored(WaterSystemId.of(id), model, locale));
        return systemForm(model, locale);
    }

    @PostMapping("/systems/{id}/edit")
    String change(
            @PathVariable UUID id,
            @ModelAttribute("form") SystemForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        WaterSystemView system = systems.require(WaterSystemId.of(id));
        model.addAttribute("system", system);
        FormReader reader = new FormReader(result, locale);
        Optional<SystemDetails> details =
                form.toCommand(reader, words.figures(locale), systems.today(), Optional.of(system));
        boolean saved = new SentForm(result, model, response)
                .saved(
                        form,
                        details,
                        read -> systems.change(system.id(), form.version(), read, form.samplePointNames()),
                        () -> stored(system.id(), model, locale));
        if (saved) {
            redirect.addFlashAttribute("flash", "tanks.saved");
            return "redirect:/systems/" + id;
        }
        return systemForm(model, locale);
    }

    private SystemForm stored(WaterSystemId id, Model model, Locale locale) {
        WaterSystemView system = systems.require(id);
        model.addAttribute("system", system);
        return SystemForm.of(system, systems.samplePoints(id), words.figures(locale));
    }

    private String systemForm(Model model, Locale locale) {
        model.addAttribute("kinds", words.choices("tanks.kind", SystemKind.class, locale));
        model.addAttribute("classes", words.choices("tanks.class", InfectionClass.class, locale));
        model.addAttribute("bases", words.choices("tanks.basis", VolumeBasis.class, locale));
        model.addAttribute("presets", presets(locale));
        model.addAttribute("figures", words.figures(locale));
        model.addAttribute(
                "sites",
                sites.all().stream()
                        .map(site -> new Choice(site.id().toString(), site.title()))
                        .toList());
        return "tanks/system-form";
    }

    private List<Choice> presets(Locale locale) {
        List<Choice> presets = new ArrayList<>(words.choices("tanks.kind", SystemKind.class, locale));
        presets.add(new Choice(SystemForm.NO_PRESET, words.word("tanks.preset.NONE", locale)));
        return presets;
    }

    @GetMapping("/systems/{id}/class")
    String editClass(@PathVariable UUID id, Model model, Locale locale) {
        WaterSystemView system = showClass(WaterSystemId.of(id), model, locale);
        model.addAttribute("form", ClassForm.of(system, systems.today().toString()));
        return "tanks/class-form";
    }

    @PostMapping("/systems/{id}/class")
    String changeClass(
            @PathVariable UUID id,
            @ModelAttribute("form") ClassForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        WaterSystemView system = showClass(WaterSystemId.of(id), model, locale);
        FormReader reader = new FormReader(result, locale);
        Optional<InfectionClass> infectionClass =
                reader.choice("infectionClass", form.infectionClass(), InfectionClass.class);
        Optional<LocalDate> since = reader.requiredDate(
                "classSince",
                form.classSince(),
                SystemForm.FIRST_DAY,
                systems.today().plusDays(1));
        boolean saved = new SentForm(result, model, response)
                .saved(
                        form,
                        infectionClass.filter(read -> since.isPresent()),
                        read -> systems.changeInfectionClass(
                                system.id(), form.version(), read, since.orElseThrow(), form.note()),
                        () -> storedClass(system.id(), model, locale));
        if (saved) {
            redirect.addFlashAttribute("flash", "tanks.saved");
            return "redirect:/systems/" + id;
        }
        return "tanks/class-form";
    }

    private ClassForm storedClass(WaterSystemId id, Model model, Locale locale) {
        WaterSystemView system = showClass(id, model, locale);
        return ClassForm.of(system, system.classSince().toString());
    }

    private WaterSystemView showClass(WaterSystemId id, Model model, Locale locale) {
        WaterSystemView system = systems.require(id);
        model.addAttribute("system", system);
        model.addAttribute(
                "state",
                sections.state(system.id(), system.infectionClass(), system.classSince(), words.figures(locale)));
        model.addAttribute("classes", words.choices("tanks.class", InfectionClass.class, locale));
        return system;
    }

    private static <E extends Enum<E>> @Nullable E chosen(@Nullable String name, Class<E> type) {
        return Arrays.stream(type.getEnumConstants())
                .filter(constant -> constant.name().equals(name))
                .findFirst()
                .orElse(null);
    }
}
