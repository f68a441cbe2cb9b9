package app.tankround.visits.apart;

import app.tankround.persistence.Uuids;
import app.tankround.tanks.Quarantine;
import app.tankround.tanks.QuarantineService;
import app.tankround.tanks.QuarantineService.Period;
import app.tankround.tanks.ReleaseCheck;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.visits.AnimalRecords;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.time.temporal.ChronoUnit;
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
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** A quarantine: its clock, what was seen, what is eaten, the display meanwhile, and its end. */
@Controller
class QuarantineController {

    private static final LocalDate FIRST = LocalDate.of(2000, 1, 1);
    private static final int LONGEST_DAYS = 365;

    private final QuarantineService quarantine;
    private final Quarantine usual;
    private final AnimalRecords records;
    private final WaterSystems systems;
    private final Clock clock;

    QuarantineController(
            QuarantineService quarantine, Quarantine usual, AnimalRecords records, WaterSystems systems, Clock clock) {
        this.quarantine = quarantine;
        this.usual = usual;
        this.records = records;
        this.systems = systems;
        this.clock = clock;
    }

    @GetMapping("/quarantines")
    String all(Model model, Locale locale) {
        model.addAttribute("quarantines", quarantine.all(systems.today()));
        model.addAttribute("periods", quarantine.periods());
        model.addAttribute("usualDays", usual.usualDays());
        model.addAttribute("day", days(locale));
        return "visits/quarantines";
    }

    @GetMapping("/systems/{id}/quarantine")
    String one(@PathVariable WaterSystemId id, Model model, Locale locale) {
        WaterSystemView system = systems.require(id);
        model.addAttribute("form", new ReleaseForm(system.version(), null, null));
        model.addAttribute("displayForm", displayForm(system));
        return page(system, model, locale);
    }

    private DisplayForm displayForm(WaterSystemView system) {
        return quarantine
                .display(system.id())
                .map(display -> new DisplayForm(
                        display.system().id().toString(),
                        display.fallowSince().map(LocalDate::toString).orElse(null),
                        display.fallowSince()
                                .flatMap(since -> display.fallowUntil()
                                        .map(until -> Long.toString(ChronoUnit.DAYS.between(since, until))))
                                .orElse(null)))
                .orElseGet(() -> new DisplayForm(null, null, null));
    }

    private String page(WaterSystemView system, Model model, Locale locale) {
        LocalDate today = systems.today();
        model.addAttribute("system", system);
        model.addAttribute("state", quarantine.of(system, today).orElse(null));
        model.addAttribute("hindrances", quarantine.hindrances(system));
        model.addAttribute("watches", records.watches(system, locale));
        model.addAttribute("fed", records.fed(system, locale));
        model.addAttribute("checks", ReleaseCheck.values());
        model.addAttribute(
                "displayWords",
                quarantine
                        .display(system.id())
                        .map(display -> records.displayWords(display, today, locale))
                        .orElse(null));
        model.addAttribute(
                "displays",
                systems.all().stream()
                        .filter(other -> other.active() && other.kind() != SystemKind.SUPPLY)
                        .filter(other -> !other.id().equals(system.id()))
                        .map(other -> new Choice(other.id().toString(), other.name() + " (" + other.code() + ")"))
                        .toList());
        model.addAttribute("day", days(locale));
        return "visits/quarantine";
    }

    @PostMapping("/systems/{id}/quarantine/release")
    String release(
            @PathVariable WaterSystemId id,
            @ModelAttribute("form") ReleaseForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        try {
            quarantine.release(id, form.version(), form.done(), form.note());
            redirect.addFlashAttribute("flash", "visits.quarantine.released");
            return "redirect:/systems/" + id;
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        }
        WaterSystemView system = systems.require(id);
        model.addAttribute("displayForm", displayForm(system));
        return page(system, model, locale);
    }

    @PostMapping("/systems/{id}/quarantine/display")
    String display(
            @PathVariable WaterSystemId id,
            @ModelAttribute("displayForm") DisplayForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        FormReader reader = new FormReader(result, locale);
        LocalDate today = systems.today();
        Optional<UUID> display = reader.id("display", form.display());
        Optional<LocalDate> since = reader.date("fallowSince", form.fallowSince(), FIRST, today.plusDays(1));
        Optional<Integer> days = form.fallowDays() == null || form.fallowDays().isBlank()
                ? Optional.empty()
                : reader.requiredWhole("fallowDays", form.fallowDays(), 1, LONGEST_DAYS);
        if (reader.accepted()) {
            try {
                quarantine.stateDisplay(id, display.map(WaterSystemId::of), since, days);
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/systems/" + id + "/quarantine";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        WaterSystemView system = systems.require(id);
        model.addAttribute("form", new ReleaseForm(system.version(), null, null));
        return page(system, model, locale);
    }

    @GetMapping("/quarantine-periods/new")
    String blank(Model model) {
        model.addAttribute("form", new PeriodForm(Uuids.next(clock.instant()).toString(), 0, null, null, null));
        model.addAttribute("path", "/quarantine-periods/new");
        return "visits/period-form";
    }

    @GetMapping("/quarantine-periods/{id}/edit")
    String edit(@PathVariable UUID id, Model model) {
        model.addAttribute("form", PeriodForm.of(quarantine.requirePeriod(id)));
        model.addAttribute("path", "/quarantine-periods/" + id + "/edit");
        return "visits/period-form";
    }

    @PostMapping("/quarantine-periods/new")
    String add(
            @ModelAttribute("form") PeriodForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        UUID id = FormReader.madeWith("quarantine-period", form.id());
        return save(id, "/quarantine-periods/new", form, result, model, locale, response, redirect);
    }

    @PostMapping("/quarantine-periods/{id}/edit")
    String change(
            @PathVariable UUID id,
            @ModelAttribute("form") PeriodForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        quarantine.requirePeriod(id);
        return save(id, "/quarantine-periods/" + id + "/edit", form, result, model, locale, response, redirect);
    }

    private String save(
            UUID id,
            String path,
            PeriodForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        FormReader reader = new FormReader(result, locale);
        Optional<Period> read = reader.requiredWhole("days", form.days(), 1, LONGEST_DAYS)
                .map(days -> new Period(id, text(form.kind()), days, text(form.why()), form.version()))
                .filter(period -> reader.accepted());
        boolean saved = new SentForm(result, model, response)
                .saved(form, read, quarantine::save, () -> PeriodForm.of(quarantine.requirePeriod(id)));
        if (saved) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/quarantines";
        }
        model.addAttribute("path", path);
        return "visits/period-form";
    }

    private static String text(@Nullable String text) {
        return text == null ? "" : text;
    }

    private static DateTimeFormatter days(Locale locale) {
        return DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM).withLocale(locale);
    }
}
