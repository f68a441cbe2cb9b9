package app.tankround.plans.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.persistence.Uuids;
import app.tankround.plans.DoseGuard;
import app.tankround.plans.DoseKind;
import app.tankround.plans.DoseRuleView;
import app.tankround.plans.DoseRules;
import app.tankround.plans.PlanWords;
import app.tankround.plans.VeterinaryOrder;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.NotFound;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
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
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What is known about products that are dosed, and what veterinarians ordered. */
@Controller
class DoseController {

    private static final BigDecimal LARGEST = new BigDecimal("100000");
    private static final LocalDate FIRST = LocalDate.of(2000, 1, 1);
    private static final LocalDate LAST = LocalDate.of(2099, 12, 31);

    private final DoseRules rules;
    private final DoseGuard guard;
    private final WaterSystems systems;
    private final BusinessProfile business;
    private final MessageSource messages;
    private final Clock clock;

    DoseController(
            DoseRules rules,
            DoseGuard guard,
            WaterSystems systems,
            BusinessProfile business,
            MessageSource messages,
            Clock clock) {
        this.rules = rules;
        this.guard = guard;
        this.systems = systems;
        this.business = business;
        this.messages = messages;
        this.clock = clock;
    }

    @GetMapping("/dose-rules")
    String list(Model model, Locale locale) {
        model.addAttribute("rules", rules.all());
        model.addAttribute("unlimited", guard.unlimited());
        model.addAttribute("words", words(locale));
        return "plans/dose-rules";
    }

    @GetMapping("/dose-rules/new")
    String blank(@RequestParam Optional<String> product, Model model, Locale locale) {
        model.addAttribute("form", DoseRuleForm.blank(Uuids.next(clock.instant()), product.orElse(null)));
        return form(Optional.empty(), model, locale);
    }

    @PostMapping("/dose-rules/new")
    String add(
            @ModelAttribute("form") DoseRuleForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        UUID id = FormReader.madeWith("dose-rule", form.id());
        return save(id, Optional.empty(), form, result, model, locale, response, redirect);
    }

    /** @throws NotFound if there is no such rule */
    @GetMapping("/dose-rules/{id}")
    String edit(@PathVariable UUID id, Model model, Locale locale) {
        model.addAttribute("form", DoseRuleForm.of(rules.require(id), words(locale)));
        return form(Optional.of(id), model, locale);
    }

    /** @throws NotFound if there is no such rule */
    @PostMapping("/dose-rules/{id}")
    String change(
            @PathVariable UUID id,
            @ModelAttribute("form") DoseRuleForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        rules.require(id);
        return save(id, Optional.of(id), form, result, model, locale, response, redirect);
    }

    private String save(
            UUID id,
            Optional<UUID> known,
            DoseRuleForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        FormReader reader = new FormReader(result, locale);
        Optional<DoseKind> kind = reader.choice("kind", form.kind(), DoseKind.class);
        Optional<Integer> hours = form.leastHours() == null || form.leastHours().isBlank()
                ? Optional.empty()
                : reader.requiredWhole("leastHours", form.leastHours(), 1, 8760);
        Optional<BigDecimal> most = reader.number("mostPerDay", form.mostPerDay());
        most.filter(typed -> typed.signum() <= 0 || typed.compareTo(LARGEST) > 0)
                .ifPresent(typed -> reader.refuse("mostPerDay", "plans.dose.above-zero", typed, LARGEST));
        PlanWords words = words(locale);
        String unit = text(form.unit());
        if (!List.of("mL", "g").contains(unit)) {
            reader.refuse("unit", "web.choice-needed", unit);
        }
        Optional<DoseRuleView> read = kind.filter(chosen -> reader.accepted())
                .map(chosen -> new DoseRuleView(
                        id,
                        text(form.product()),
                        chosen,
                        hours,
                        most.map(words::dosePerHundredLitres),
                        unit,
                        text(form.why()),
                        form.version()));
        if (new SentForm(result, model, response)
                .saved(form, read, rules::save, () -> DoseRuleForm.of(rules.require(id), words))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/dose-rules";
        }
        return form(known, model, locale);
    }

    private String form(Optional<UUID> id, Model model, Locale locale) {
        model.addAttribute("path", "/dose-rules/" + id.map(UUID::toString).orElse("new"));
        model.addAttribute("words", words(locale));
        model.addAttribute(
                "kinds",
                Arrays.stream(DoseKind.values())
                        .map(kind ->
                                new Choice(kind.name(), messages.getMessage("plans.dose.kind." + kind, null, locale)))
                        .toList());
        model.addAttribute("units", List.of(new Choice("mL", "mL"), new Choice("g", "g")));
        return "plans/dose-rule-form";
    }

    @GetMapping("/systems/{system}/veterinary-orders/new")
    String order(@PathVariable WaterSystemId system, Model model) {
        model.addAttribute(
                "form",
                new OrderForm(
                        Uuids.next(clock.instant()).toString(),
                        null,
                        null,
                        systems.today().toString(),
                        null,
                        null));
        return orderForm(system, model);
    }

    @PostMapping("/systems/{system}/veterinary-orders/new")
    String keep(
            @PathVariable WaterSystemId system,
            @ModelAttribute("form") OrderForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        FormReader reader = new FormReader(result, locale);
        Optional<LocalDate> written = reader.requiredDate("writtenOn", form.writtenOn(), FIRST, systems.today());
        Optional<LocalDate> until = reader.requiredDate("validUntil", form.validUntil(), FIRST, LAST);
        Optional<Integer> days = reader.requiredWhole("waitingDays", form.waitingDays(), 0, 3650);
        if (reader.accepted()) {
            try {
                boolean kept = rules.keep(new VeterinaryOrder(
                        FormReader.madeWith("veterinary-order", form.id()),
                        systems.require(system).id(),
                        text(form.product()),
                        text(form.veterinarian()),
                        written.orElseThrow(),
                        until.orElseThrow(),
                        days.orElseThrow()));
                redirect.addFlashAttribute("flash", kept ? "web.saved" : "plans.order.kept-already");
                return "redirect:/systems/" + system;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return orderForm(system, model);
    }

    private String orderForm(WaterSystemId system, Model model) {
        model.addAttribute("system", systems.require(system));
        return "plans/order-form";
    }

    private PlanWords words(Locale locale) {
        return new PlanWords(business.current().unitSystem(), locale);
    }

    private static String text(@Nullable String text) {
        return text == null ? "" : text;
    }
}
