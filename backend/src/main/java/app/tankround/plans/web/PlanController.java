package app.tankround.plans.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.PlanOrder;
import app.tankround.chemistry.Salt;
import app.tankround.persistence.Uuids;
import app.tankround.plans.CorrectivePlanId;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.NewPlan;
import app.tankround.plans.PlanFollowing;
import app.tankround.plans.PlanMaking;
import app.tankround.plans.PlanView;
import app.tankround.plans.PlanWords;
import app.tankround.plans.SafeRateView;
import app.tankround.plans.SafeRates;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.NavigationItem;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.time.Clock;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Plans: the list, a new one, one with its steps, and how fast water may change. */
@Controller
class PlanController {

    @Configuration(proxyBeanMethods = false)
    static class Navigation {

        @Bean
        NavigationItem plansNavigation() {
            return NavigationItem.forStaff(35, "plans", "/plans");
        }
    }

    record Line(PlanView plan, WaterSystemView system) {}

    /** A quantity that moves along with the salinity. */
    record Along(Quantity quantity, double from, double to) {}

    private final CorrectivePlans plans;
    private final PlanMaking making;
    private final PlanFollowing following;
    private final SafeRates rates;
    private final WaterSystems systems;
    private final BusinessProfile business;
    private final MessageSource messages;
    private final Clock clock;

    PlanController(
            CorrectivePlans plans,
            PlanMaking making,
            PlanFollowing following,
            SafeRates rates,
            WaterSystems systems,
            BusinessProfile business,
            MessageSource messages,
            Clock clock) {
        this.plans = plans;
        this.making = making;
        this.following = following;
        this.rates = rates;
        this.systems = systems;
        this.business = business;
        this.messages = messages;
        this.clock = clock;
    }

    @GetMapping("/plans")
    String list(Model model, Locale locale) {
        model.addAttribute(
                "lines",
                plans.open().stream()
                        .map(plan -> new Line(plan, systems.require(plan.systemId())))
                        .toList());
        model.addAttribute("words", words(locale));
        return "plans/plans";
    }

    @GetMapping("/plans/{id}")
    String plan(@PathVariable CorrectivePlanId id, Model model, Locale locale) {
        model.addAttribute("form", new StopForm(plans.require(id).version(), null));
        return show(id, model, locale);
    }

    private String show(CorrectivePlanId id, Model model, Locale locale) {
        PlanView plan = plans.require(id);
        model.addAttribute("plan", plan);
        model.addAttribute("system", systems.require(plan.systemId()));
        model.addAttribute("words", words(locale));
        model.addAttribute("rate", rates.of(plan.systemId(), plan.quantity()));
        model.addAttribute("open", plan.open());
        boolean salinity = plan.quantity() == Quantity.SALINITY;
        model.addAttribute(
                "matched", salinity ? plans.matchedByCondemned(plan.systemId()) : CorrectivePlans.Matched.NO);
        model.addAttribute("lowSump", salinity ? plans.lowSump(plan.systemId()) : Optional.empty());
        model.addAttribute("newerNotBelieved", plans.newerNotBelieved(plan));
        model.addAttribute("along", salinity && !plan.steps().isEmpty() ? along(plan) : List.of());
        return "plans/plan";
    }

    /** What moves along with the salinity by the end of the steps. */
    private List<Along> along(PlanView plan) {
        Map<Quantity, Double> known = plans.known(plan.systemId());
        double end = plan.steps().getLast().after();
        if (plan.from() <= 0) {
            return List.of();
        }
        return Stream.of(Quantity.ALKALINITY, Quantity.CALCIUM, Quantity.MAGNESIUM)
                .filter(known::containsKey)
                .map(quantity -> {
                    double now = Optional.ofNullable(known.get(quantity)).orElseThrow();
                    Salinity from = Salinity.ofPractical(plan.from());
                    return new Along(quantity, now, PlanOrder.withSalinity(now, from, Salinity.ofPractical(end)));
                })
                .toList();
    }

    @PostMapping("/plans/{id}/start")
    String start(
            @PathVariable CorrectivePlanId id,
            @ModelAttribute("form") StopForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        try {
            following.start(id, form.version());
            redirect.addFlashAttribute("flash", "plans.started");
            return "redirect:/plans/" + id;
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        } catch (StaleVersion changed) {
            result.reject("plans.changed");
        }
        return show(id, model, locale);
    }

    @PostMapping("/plans/{id}/stop")
    String stop(
            @PathVariable CorrectivePlanId id,
            @ModelAttribute("form") StopForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        try {
            following.stop(id, form.version(), Optional.ofNullable(form.why()).orElse(""));
            redirect.addFlashAttribute("flash", "plans.stopped");
            return "redirect:/plans/" + id;
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        } catch (StaleVersion changed) {
            result.reject("plans.changed");
        }
        return show(id, model, locale);
    }

    @GetMapping("/systems/{system}/plans/new")
    String ask(@PathVariable WaterSystemId system, @RequestParam Quantity quantity, Model model, Locale locale) {
        requirePlanned(quantity);
        PlanWords words = words(locale);
        model.addAttribute(
                "form",
                PlanForm.proposed(
                        Uuids.next(clock.instant()).toString(),
                        quantity,
                        making.middleOfTarget(system, quantity),
                        making.usualCarry(system),
                        !making.addingDaily(system, quantity).isEmpty(),
                        words));
        return form(system, quantity, model, locale);
    }

    @PostMapping("/systems/{system}/plans/new")
    String propose(
            @PathVariable WaterSystemId system,
            @RequestParam Quantity quantity,
            @ModelAttribute("form") PlanForm form,
            BindingResult result,
            Model model,
            Locale locale) {
        requirePlanned(quantity);
        Optional<NewPlan> asked = form.toCommand(
                systems.require(system),
                quantity,
                !making.addingDaily(system, quantity).isEmpty(),
                words(locale),
                new FormReader(result, locale));
        if (asked.isPresent()) {
            try {
                return "redirect:/plans/" + making.propose(asked.get());
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return form(system, quantity, model, locale);
    }

    private static void requirePlanned(Quantity quantity) {
        if (!SafeRates.PLANNED.contains(quantity)) {
            throw new NotFound("plan", quantity.name());
        }
    }

    private String form(WaterSystemId id, Quantity quantity, Model model, Locale locale) {
        WaterSystemView system = systems.require(id);
        model.addAttribute("system", system);
        model.addAttribute("quantity", quantity);
        model.addAttribute("words", words(locale));
        model.addAttribute("known", plans.known(id));
        model.addAttribute("lowSump", quantity == Quantity.SALINITY ? plans.lowSump(id) : Optional.empty());
        model.addAttribute("rate", rates.of(id, quantity));
        model.addAttribute(
                "adding",
                making.addingDaily(id, quantity).stream()
                        .map(equipment -> equipment.kind() + " (" + equipment.name() + ")")
                        .collect(Collectors.joining(", ")));
        model.addAttribute(
                "salts",
                Arrays.stream(Salt.values())
                        .filter(salt -> salt.raises().name().equals(quantity.name()))
                        .map(salt -> new Choice(
                                salt.name(),
                                messages.getMessage("plans.salt." + salt, new Object[] {salt.formula()}, locale)))
                        .toList());
        return "plans/plan-form";
    }

    @GetMapping("/plans/rates")
    String rates(Model model, Locale locale) {
        model.addAttribute("rates", rates.all());
        model.addAttribute("words", words(locale));
        return "plans/rates";
    }

    @GetMapping("/plans/rates/{quantity}")
    String rate(
            @PathVariable Quantity quantity, @RequestParam Optional<WaterSystemId> system, Model model, Locale locale) {
        requirePlanned(quantity);
        SafeRateView held = held(system, quantity);
        PlanWords words = words(locale);
        int version = held.systemId().equals(system) ? held.version() : 0;
        model.addAttribute("form", RateForm.of(held, version, words));
        return rateForm(system, quantity, model, locale);
    }

    @PostMapping("/plans/rates/{quantity}")
    String setRate(
            @PathVariable Quantity quantity,
            @RequestParam Optional<WaterSystemId> system,
            @ModelAttribute("form") RateForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        requirePlanned(quantity);
        FormReader reader = new FormReader(result, locale);
        Optional<Double> raising = form.raising(quantity, words(locale), reader);
        Optional<Double> lowering = form.lowering(quantity, words(locale), reader);
        if (reader.accepted()) {
            try {
                rates.set(system, quantity, raising, lowering, text(form.why()), form.version());
                redirect.addFlashAttribute("flash", "web.saved");
                return system.map(id -> "redirect:/systems/" + id + "/plans/new?quantity=" + quantity)
                        .orElse("redirect:/plans/rates");
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            } catch (StaleVersion changed) {
                result.reject("plans.changed");
            }
        }
        return rateForm(system, quantity, model, locale);
    }

    private static String text(@Nullable String text) {
        return text == null ? "" : text;
    }

    private SafeRateView held(Optional<WaterSystemId> system, Quantity quantity) {
        return system.map(id -> rates.of(id, quantity))
                .orElseGet(() -> rates.all().stream()
                        .filter(rate -> rate.quantity() == quantity)
                        .findFirst()
                        .orElseThrow());
    }

    private String rateForm(Optional<WaterSystemId> system, Quantity quantity, Model model, Locale locale) {
        model.addAttribute("quantity", quantity);
        model.addAttribute("words", words(locale));
        model.addAttribute("system", system.map(systems::require).orElse(null));
        model.addAttribute("held", held(system, quantity));
        return "plans/rate-form";
    }

    private PlanWords words(Locale locale) {
        return new PlanWords(business.current().unitSystem(), locale);
    }

    static List<Quantity> inOrder(Map<Quantity, Double> known) {
        return SafeRates.PLANNED.stream().filter(known::containsKey).toList();
    }
}
