package app.tankround.tanks.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
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
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormDifference;
import app.tankround.web.FormReader;
import app.tankround.web.StaleVersion;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
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

@Controller
class SystemController {

    private static final String DEFAULT_GRAVITY_REFERENCE = "20/20";

    private final WaterSystems systems;
    private final SiteService sites;
    private final SystemSections sections;
    private final History history;
    private final Words words;
    private final BusinessProfile business;
    private final Clock clock;

    SystemController(
            WaterSystems systems,
            SiteService sites,
            SystemSections sections,
            History history,
            Words words,
            BusinessProfile business,
            Clock clock) {
        this.systems = systems;
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
                                sections.state(line.infectionClass(), line.classSince(), figures)))
                        .toList());
        return "tanks/list";
    }

    @GetMapping("/systems/{id}")
    String system(@PathVariable UUID id, Model model, Locale locale) {
        WaterSystemView system = systems.require(WaterSystemId.of(id));
        Figures figures = words.figures(locale);
        ZoneId zone = business.find().map(BusinessSettings::zone).orElse(ZoneOffset.UTC);
        model.addAttribute("figures", figures);
        model.addAttribute("place", sites.require(system.siteId()));
        model.addAttribute("whole", sections.whole(system, figures));
        model.addAttribute("history", history.of(system.id(), figures, zone));
        return "tanks/system";
    }

    @GetMapping("/systems/new")
    String blank(@RequestParam(required = false) @Nullable UUID site, Model model, Locale locale) {
        WaterSystemId id = WaterSystemId.of(Uuids.next(clock.instant()));
        return systemForm(
                model,
                locale,
                SystemForm.blank(id, systems.nextCode(), site == null ? null : site.toString(), systems.today()));
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
            if (added.isPresent()) {
                try {
                    systems.add(added.get());
                    redirect.addFlashAttribute("flash", "tanks.saved");
                    return "redirect:/systems/" + id;
                } catch (FieldRefusal refusal) {
                    refusal.into(result);
                } catch (StaleVersion stale) {
                    return conflict(form, id, model, locale, response);
                }
            }
        }
        return systemForm(model, locale, form);
    }

    private static List<TargetRange> preset(@Nullable String chosen, SystemKind kind) {
        if (SystemForm.NO_PRESET.equals(chosen)) {
            return List.of();
        }
        SystemKind of = chosen(chosen, SystemKind.class);
        return TargetPresets.of(of == null ? kind : of);
    }

    @GetMapping("/systems/{id}/edit")
    String edit(@PathVariable UUID id, Model model, Locale locale) {
        WaterSystemView system = systems.require(WaterSystemId.of(id));
        model.addAttribute("system", system);
        return systemForm(
                model, locale, SystemForm.of(system, systems.samplePoints(system.id()), words.figures(locale)));
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
        if (details.isPresent()) {
            try {
                systems.change(system.id(), form.version(), details.get(), form.samplePointNames());
                redirect.addFlashAttribute("flash", "tanks.saved");
                return "redirect:/systems/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            } catch (StaleVersion stale) {
                return conflict(form, system.id(), model, locale, response);
            }
        }
        return systemForm(model, locale, form);
    }

    /** Shows both versions over the form, which then changes the newest one when it is sent again. */
    private String conflict(
            SystemForm form, WaterSystemId id, Model model, Locale locale, HttpServletResponse response) {
        WaterSystemView newest = systems.require(id);
        SystemForm theirs = SystemForm.of(newest, systems.samplePoints(id), words.figures(locale));
        response.setStatus(HttpStatus.CONFLICT.value());
        model.addAttribute("system", newest);
        model.addAttribute("differences", FormDifference.between(theirs, form));
        return systemForm(model, locale, form.withVersion(newest.version()));
    }

    private String systemForm(Model model, Locale locale, SystemForm form) {
        model.addAttribute("form", form);
        model.addAttribute("kinds", words.choices("tanks.kind", SystemKind.class, locale));
        model.addAttribute("classes", words.choices("tanks.class", InfectionClass.class, locale));
        model.addAttribute("bases", words.choices("tanks.basis", VolumeBasis.class, locale));
        model.addAttribute("presets", presets(locale));
        model.addAttribute("figures", words.figures(locale));
        model.addAttribute(
                "sites",
                sites.all().stream()
                        .map(site -> new Choice(site.id().toString(), site.clientName() + ", " + site.name()))
                        .toList());
        return "tanks/system-form";
    }

    private List<Choice> presets(Locale locale) {
        List<Choice> presets = new ArrayList<>(words.choices("tanks.kind", SystemKind.class, locale));
        presets.add(new Choice(SystemForm.NO_PRESET, words.word("tanks.preset.NONE", locale)));
        return presets;
    }

    @GetMapping("/systems/{id}/targets")
    String editTargets(@PathVariable UUID id, Model model, Locale locale) {
        WaterSystemView system = systems.require(WaterSystemId.of(id));
        return targetsForm(
                model,
                locale,
                system,
                TargetsForm.of(
                        system.version(), systems.targets(system.id()), words.figures(locale), gravityReference()));
    }

    @PostMapping("/systems/{id}/targets")
    String changeTargets(
            @PathVariable UUID id,
            @ModelAttribute("form") TargetsForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        WaterSystemView system = systems.require(WaterSystemId.of(id));
        Optional<List<TargetRange>> targets = form.toCommand(new FormReader(result, locale));
        if (targets.isPresent()) {
            try {
                systems.changeTargets(system.id(), form.version(), targets.get());
                redirect.addFlashAttribute("flash", "tanks.saved");
                return "redirect:/systems/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            } catch (StaleVersion stale) {
                return conflict(form, system.id(), model, locale, response);
            }
        }
        return targetsForm(model, locale, system, form);
    }

    private String conflict(
            TargetsForm form, WaterSystemId id, Model model, Locale locale, HttpServletResponse response) {
        WaterSystemView newest = systems.require(id);
        TargetsForm theirs =
                TargetsForm.of(newest.version(), systems.targets(id), words.figures(locale), gravityReference());
        Map<String, TargetsForm.Line> yours = lines(form);
        List<FormDifference> differences = lines(theirs).entrySet().stream()
                .filter(line -> yours.containsKey(line.getKey()))
                .map(line -> new FormDifference(line.getKey(), range(line.getValue()), range(yours.get(line.getKey()))))
                .filter(difference -> !difference.theirs().equals(difference.yours()))
                .toList();
        response.setStatus(HttpStatus.CONFLICT.value());
        model.addAttribute("differences", differences);
        return targetsForm(model, locale, newest, form.withVersion(newest.version()));
    }

    private static Map<String, TargetsForm.Line> lines(TargetsForm form) {
        List<TargetsForm.Line> lines = form.lines() == null ? List.of() : form.lines();
        return lines.stream()
                .collect(Collectors.toMap(
                        TargetsForm.Line::quantity,
                        Function.identity(),
                        (first, second) -> second,
                        LinkedHashMap::new));
    }

    private static String range(TargetsForm.@Nullable Line line) {
        if (line == null || line.isBlank()) {
            return "";
        }
        String low = line.low() == null ? "" : line.low();
        String high = line.high() == null ? "" : line.high();
        return low + " – " + high + " " + line.unit();
    }

    private String targetsForm(Model model, Locale locale, WaterSystemView system, TargetsForm form) {
        model.addAttribute("form", form);
        model.addAttribute("system", system);
        model.addAttribute(
                "units",
                Arrays.stream(Quantity.values())
                        .collect(Collectors.toMap(Quantity::name, quantity -> units(quantity, locale))));
        return "tanks/targets-form";
    }

    private List<Choice> units(Quantity quantity, Locale locale) {
        return quantity.units().stream()
                .map((MeasurementUnit unit) -> new Choice(unit.code(), words.word("tanks.unit." + unit.name(), locale)))
                .toList();
    }

    private String gravityReference() {
        return business.find().map(BusinessSettings::gravityReference).orElse(DEFAULT_GRAVITY_REFERENCE);
    }

    @GetMapping("/systems/{id}/class")
    String editClass(@PathVariable UUID id, Model model, Locale locale) {
        WaterSystemView system = systems.require(WaterSystemId.of(id));
        return classForm(
                model, locale, system, ClassForm.of(system, systems.today().toString()));
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
        WaterSystemView system = systems.require(WaterSystemId.of(id));
        FormReader reader = new FormReader(result, locale);
        Optional<InfectionClass> infectionClass =
                reader.choice("infectionClass", form.infectionClass(), InfectionClass.class);
        Optional<LocalDate> since = reader.requiredDate(
                "classSince",
                form.classSince(),
                SystemForm.FIRST_DAY,
                systems.today().plusDays(1));
        if (infectionClass.isPresent() && since.isPresent()) {
            try {
                systems.changeInfectionClass(
                        system.id(), form.version(), infectionClass.get(), since.get(), form.note());
                redirect.addFlashAttribute("flash", "tanks.saved");
                return "redirect:/systems/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            } catch (StaleVersion stale) {
                WaterSystemView newest = systems.require(system.id());
                ClassForm theirs = ClassForm.of(newest, newest.classSince().toString());
                response.setStatus(HttpStatus.CONFLICT.value());
                model.addAttribute("differences", FormDifference.between(theirs, form));
                return classForm(model, locale, newest, form.withVersion(newest.version()));
            }
        }
        return classForm(model, locale, system, form);
    }

    private String classForm(Model model, Locale locale, WaterSystemView system, ClassForm form) {
        Figures figures = words.figures(locale);
        model.addAttribute("form", form);
        model.addAttribute("system", system);
        model.addAttribute("state", sections.state(system.infectionClass(), system.classSince(), figures));
        model.addAttribute("classes", words.choices("tanks.class", InfectionClass.class, locale));
        return "tanks/class-form";
    }

    private static <E extends Enum<E>> @Nullable E chosen(@Nullable String name, Class<E> type) {
        return Arrays.stream(type.getEnumConstants())
                .filter(constant -> constant.name().equals(name))
                .findFirst()
                .orElse(null);
    }
}
