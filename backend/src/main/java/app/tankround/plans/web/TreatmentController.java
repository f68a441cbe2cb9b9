package app.tankround.plans.web;

import app.tankround.persistence.Uuids;
import app.tankround.plans.Treatment;
import app.tankround.plans.Treatment.Copper;
import app.tankround.plans.Treatment.CopperForm;
import app.tankround.plans.Treatment.KitShows;
import app.tankround.plans.Treatment.State;
import app.tankround.plans.Treatment.Thing;
import app.tankround.plans.Treatments;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
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

/** Begins and ends treatments. */
@Controller
class TreatmentController {

    private static final LocalDate FIRST = LocalDate.of(2000, 1, 1);
    private static final BigDecimal SMALLEST = new BigDecimal("0.0001");
    private static final BigDecimal STRONGEST = new BigDecimal("1000000");
    private static final BigDecimal HIGHEST = new BigDecimal("10000");

    private final Treatments treatments;
    private final WaterSystems systems;
    private final MessageSource messages;
    private final Clock clock;

    TreatmentController(Treatments treatments, WaterSystems systems, MessageSource messages, Clock clock) {
        this.treatments = treatments;
        this.systems = systems;
        this.messages = messages;
        this.clock = clock;
    }

    @GetMapping("/systems/{system}/treatments/new")
    String blank(@PathVariable WaterSystemId system, Model model, Locale locale) {
        String id = Uuids.next(clock.instant()).toString();
        String today = systems.today().toString();
        List<String> usual = List.of(Thing.CARBON.name(), Thing.UV.name());
        model.addAttribute("form", new TreatmentForm(id, null, null, null, "mL", null, null, null, null, today, usual));
        return page(system, model, locale);
    }

    @PostMapping("/systems/{system}/treatments/new")
    String begin(
            @PathVariable WaterSystemId system,
            @ModelAttribute("form") TreatmentForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        FormReader reader = new FormReader(result, locale);
        Optional<BigDecimal> strength = reader.requiredNumber("strength", form.strength(), SMALLEST, STRONGEST);
        Optional<BigDecimal> low = reader.requiredNumber("low", form.low(), SMALLEST, HIGHEST);
        Optional<BigDecimal> high = reader.requiredNumber("high", form.high(), SMALLEST, HIGHEST);
        Optional<LocalDate> started = reader.requiredDate(
                "startedOn", form.startedOn(), FIRST, systems.today().plusDays(1));
        if (!List.of("mL", "g").contains(text(form.unit()))) {
            reader.refuse("unit", "web.choice-needed", text(form.unit()));
        }
        Optional<CopperForm> copper = optional("copperForm", form.copperForm(), CopperForm.class, reader);
        Optional<KitShows> kit = optional("kitShows", form.kitShows(), KitShows.class, reader);
        if (copper.isPresent() != kit.isPresent()) {
            reader.refuse(copper.isPresent() ? "kitShows" : "copperForm", "plans.treatment.copper-form");
        }
        if (reader.accepted()) {
            Map<Thing, State> things = new EnumMap<>(Thing.class);
            Arrays.stream(Thing.values())
                    .filter(thing -> form.off().contains(thing.name()))
                    .forEach(thing -> things.put(thing, State.ON));
            try {
                treatments.begin(new Treatment(
                        FormReader.madeWith("treatment", form.id()),
                        system,
                        text(form.product()),
                        text(form.orderedBy()),
                        strength.orElseThrow().doubleValue(),
                        text(form.unit()),
                        low.orElseThrow().doubleValue(),
                        high.orElseThrow().doubleValue(),
                        copper.map(each -> new Copper(each, kit.orElseThrow())),
                        started.orElseThrow(),
                        Optional.empty(),
                        things,
                        0));
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/systems/" + system;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return page(system, model, locale);
    }

    private static <E extends Enum<E>> Optional<E> optional(
            String field, @Nullable String typed, Class<E> type, FormReader reader) {
        return text(typed).isEmpty() ? Optional.empty() : reader.choice(field, typed, type);
    }

    private String page(WaterSystemId system, Model model, Locale locale) {
        model.addAttribute("system", systems.require(system));
        model.addAttribute("units", List.of(new Choice("mL", "mL"), new Choice("g", "g")));
        model.addAttribute("forms", choices("plans.treatment.form.", CopperForm.values(), locale));
        model.addAttribute("kits", choices("plans.treatment.kit.", KitShows.values(), locale));
        model.addAttribute("all", Thing.values());
        return "plans/treatment-form";
    }

    private List<Choice> choices(String prefix, Enum<?>[] values, Locale locale) {
        return Arrays.stream(values)
                .map(each -> new Choice(each.name(), messages.getMessage(prefix + each.name(), null, locale)))
                .toList();
    }

    @GetMapping("/systems/{system}/treatments/{id}/edit")
    String ending(@PathVariable WaterSystemId system, @PathVariable UUID id, Model model) {
        model.addAttribute("form", new EndForm(null));
        return endPage(system, id, model);
    }

    @PostMapping("/systems/{system}/treatments/{id}/edit")
    String end(
            @PathVariable WaterSystemId system,
            @PathVariable UUID id,
            @ModelAttribute("form") EndForm form,
            BindingResult result,
            Model model,
            RedirectAttributes redirect) {
        try {
            treatments.end(system, id, systems.today(), text(form.why()));
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/systems/" + system;
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        }
        return endPage(system, id, model);
    }

    private String endPage(WaterSystemId system, UUID id, Model model) {
        model.addAttribute("system", systems.require(system));
        model.addAttribute("treatment", treatments.require(system, id));
        return "plans/treatment-end";
    }

    private static String text(@Nullable String text) {
        return Objects.requireNonNullElse(text, "").strip();
    }
}
