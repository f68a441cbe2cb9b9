package app.tankround.visits.apart;

import app.tankround.accounts.Days;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.FirstFood;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.Quarantine;
import app.tankround.tanks.QuarantineService;
import app.tankround.tanks.QuarantineService.Period;
import app.tankround.tanks.ReleaseCheck;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.visits.AnimalLook;
import app.tankround.visits.AnimalRecords;
import app.tankround.visits.AnimalsApart;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import app.tankround.web.TextInput;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
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
    private static final int LONGEST_SIGNS = 500;

    private final QuarantineService quarantine;
    private final Quarantine usual;
    private final AnimalRecords records;
    private final AnimalsApart apart;
    private final WaterSystems systems;
    private final Days days;
    private final MessageSource messages;
    private final Clock clock;

    QuarantineController(
            QuarantineService quarantine,
            Quarantine usual,
            AnimalRecords records,
            AnimalsApart apart,
            WaterSystems systems,
            Days days,
            MessageSource messages,
            Clock clock) {
        this.apart = apart;
        this.days = days;
        this.messages = messages;
        this.quarantine = quarantine;
        this.usual = usual;
        this.records = records;
        this.systems = systems;
        this.clock = clock;
    }

    @GetMapping("/quarantines")
    String all(Model model) {
        model.addAttribute("quarantines", quarantine.all(systems.today()));
        model.addAttribute("periods", quarantine.periods());
        model.addAttribute("usualDays", usual.usualDays());
        model.addAttribute("days", days);
        return "visits/quarantines";
    }

    @GetMapping("/systems/{id}/quarantine")
    String one(@PathVariable WaterSystemId id, Model model, Locale locale) {
        return page(systems.require(id), model, locale);
    }

    /** What each form of the page shows; one that was just refused stands in the model already. */
    private void blankForms(WaterSystemView system, Model model) {
        Map<String, Object> blank = Map.of(
                "form", new ReleaseForm(system.version(), null, null),
                "displayForm", displayForm(system),
                "lookForm", new LookForm(Uuids.next(clock.instant()).toString(), null, null, null),
                "offerForm", new OfferForm(Uuids.next(clock.instant()).toString(), null, null, null));
        blank.forEach((name, form) -> {
            if (!model.containsAttribute(name)) {
                model.addAttribute(name, form);
            }
        });
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
        blankForms(system, model);
        model.addAttribute("system", system);
        model.addAttribute("eatings", choices(AnimalLook.Eating.values(), "visits.watch.eating.", locale));
        model.addAttribute("breathings", choices(AnimalLook.Breathing.values(), "visits.watch.breathing.", locale));
        model.addAttribute("offers", choices(FirstFood.Offer.values(), "visits.food.offer.", locale));
        model.addAttribute("outcomes", choices(FirstFood.Outcome.values(), "visits.food.outcome.", locale));
        model.addAttribute("state", quarantine.of(system, today).orElse(null));
        model.addAttribute("hindrances", quarantine.hindrances(system));
        model.addAttribute("watches", records.watches(system, locale));
        List<AnimalRecords.Fed> fed = records.fed(system, locale);
        model.addAttribute("fed", fed);
        model.addAttribute(
                "animals",
                fed.stream()
                        .map(AnimalRecords.Fed::animals)
                        .map(animals -> new Choice(animals.id().toString(), animals.commonName()))
                        .toList());
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
        model.addAttribute("days", days);
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
        return page(systems.require(id), model, locale);
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
        return page(systems.require(id), model, locale);
    }

    @PostMapping("/systems/{id}/quarantine/look")
    String look(
            @PathVariable WaterSystemId id,
            @ModelAttribute("lookForm") LookForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        UUID made = FormReader.madeWith("look", form.id());
        FormReader reader = new FormReader(result, locale);
        Optional<AnimalLook.Eating> eating = reader.choice("eating", form.eating(), AnimalLook.Eating.class);
        Optional<AnimalLook.Breathing> breathing =
                reader.choice("breathing", form.breathing(), AnimalLook.Breathing.class);
        Optional<Optional<String>> signs =
                reader.read(() -> Optional.ofNullable(TextInput.optional("signs", form.signs(), LONGEST_SIGNS)));
        if (reader.accepted()) {
            apart.saw(made, id, eating.orElseThrow(), breathing.orElseThrow(), signs.orElseThrow());
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/systems/" + id + "/quarantine";
        }
        model.addAttribute("refusedForm", "look");
        return page(systems.require(id), model, locale);
    }

    @PostMapping("/systems/{id}/quarantine/offer")
    String offer(
            @PathVariable WaterSystemId id,
            @ModelAttribute("offerForm") OfferForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        UUID made = FormReader.madeWith("offer", form.id());
        FormReader reader = new FormReader(result, locale);
        Optional<UUID> animals = reader.id("animals", form.animals());
        Optional<FirstFood.Offer> offer = reader.choice("offer", form.offer(), FirstFood.Offer.class);
        Optional<FirstFood.Outcome> outcome = reader.choice("outcome", form.outcome(), FirstFood.Outcome.class);
        if (reader.accepted()) {
            try {
                apart.offered(
                        made, id, LivestockId.of(animals.orElseThrow()), offer.orElseThrow(), outcome.orElseThrow());
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/systems/" + id + "/quarantine";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        model.addAttribute("refusedForm", "offer");
        return page(systems.require(id), model, locale);
    }

    private List<Choice> choices(Enum<?>[] values, String code, Locale locale) {
        return Arrays.stream(values)
                .map(value -> new Choice(value.name(), messages.getMessage(code + value.name(), null, locale)))
                .toList();
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
}
