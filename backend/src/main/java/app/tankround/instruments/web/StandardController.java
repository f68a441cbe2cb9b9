package app.tankround.instruments.web;

import app.tankround.accounts.Days;
import app.tankround.accounts.Temperatures;
import app.tankround.chemistry.PhBuffer;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.MadeUpStandards;
import app.tankround.instruments.NewStandard;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRecipe;
import app.tankround.instruments.StandardRegister;
import app.tankround.instruments.StandardView;
import app.tankround.units.Quantity;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.NumberText;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** The standards that instruments are checked against. */
@Controller
class StandardController {

    record Line(StandardView standard, String icon, String state, String openedOn, String expiresOn) {}

    private final StandardRegister register;
    private final MadeUpStandards made;
    private final InstrumentRegister instruments;
    private final Temperatures temperatures;
    private final MessageSource messages;
    private final Days days;
    private final Clock clock;

    StandardController(
            StandardRegister register,
            MadeUpStandards made,
            InstrumentRegister instruments,
            Temperatures temperatures,
            MessageSource messages,
            Days days,
            Clock clock) {
        this.register = register;
        this.made = made;
        this.instruments = instruments;
        this.temperatures = temperatures;
        this.messages = messages;
        this.days = days;
        this.clock = clock;
    }

    @ModelAttribute("quantities")
    List<Choice> quantities(Locale locale) {
        return Arrays.stream(Quantity.values())
                .map(quantity ->
                        new Choice(quantity.name(), messages.getMessage("quantity." + quantity.name(), null, locale)))
                .toList();
    }

    @ModelAttribute("kinds")
    List<Choice> kinds(Locale locale) {
        return Arrays.stream(StandardKind.values())
                .map(kind -> new Choice(
                        kind.name(), messages.getMessage("instruments.standard.kind." + kind.name(), null, locale)))
                .toList();
    }

    @ModelAttribute("buffers")
    List<Choice> buffers(Locale locale) {
        return Arrays.stream(PhBuffer.values())
                .map(buffer -> new Choice(
                        buffer.name(), messages.getMessage("instruments.buffer." + buffer.name(), null, locale)))
                .toList();
    }

    @ModelAttribute("degrees")
    String degrees() {
        return temperatures.unit().symbol();
    }

    @ModelAttribute("units")
    List<Choice> units() {
        return InstrumentController.units();
    }

    @GetMapping("/standards")
    String list(Model model, Locale locale) {
        LocalDate today = days.of(clock.instant());
        Set<StandardId> weighedInDoubt = made.doubtedBalances().keySet();
        model.addAttribute(
                "lines",
                register.all().stream()
                        .map(standard -> line(
                                standard,
                                InstrumentController.wrongWith(standard, weighedInDoubt, today)
                                        .orElse("good"),
                                locale))
                        .toList());
        return "instruments/standards";
    }

    private Line line(StandardView standard, String state, Locale locale) {
        String icon = switch (state) {
            case "good" -> "done";
            case "expired" -> "late";
            default -> "untrusted";
        };
        return new Line(
                standard,
                icon,
                messages.getMessage("instruments.standard." + state, null, locale),
                standard.openedOn().map(day -> Days.day(day, locale)).orElse(""),
                standard.lastDay().map(day -> Days.day(day, locale)).orElse(""));
    }

    /** A bottle is opened where it is used, so whoever opens it says so. */
    @PostMapping("/standards/{id}/opened")
    String opened(@PathVariable StandardId id, RedirectAttributes redirect) {
        boolean now = register.opened(id);
        redirect.addFlashAttribute("flash", now ? "instruments.standard.opened" : "instruments.standard.opened-before");
        return "redirect:/standards";
    }

    @GetMapping("/standards/new")
    String newStandard(Model model) {
        model.addAttribute("form", StandardForm.empty());
        return "instruments/standard-form";
    }

    @PostMapping("/standards/new")
    String add(
            @ModelAttribute("form") StandardForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        return sent(
                form, result, model, locale, response, redirect, Optional.empty(), register::add, StandardForm::empty);
    }

    @GetMapping("/standards/{id}")
    String edit(@PathVariable StandardId id, Model model, Locale locale) {
        StandardView stored = register.require(id);
        show(stored, model, locale);
        model.addAttribute("form", StandardForm.of(stored, temperatures));
        return "instruments/standard-form";
    }

    @PostMapping("/standards/{id}")
    String change(
            @PathVariable StandardId id,
            @ModelAttribute("form") StandardForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        StandardView stored = register.require(id);
        show(stored, model, locale);
        return sent(
                form,
                result,
                model,
                locale,
                response,
                redirect,
                stored.valueTemperature(),
                stated -> register.change(id, form.version(), stated),
                () -> StandardForm.of(register.require(id), temperatures));
    }

    @PostMapping("/standards/{id}/remove")
    String remove(
            @PathVariable StandardId id,
            @ModelAttribute("form") StandardForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        show(register.require(id), model, locale);
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        Optional.of(form),
                        sent -> register.remove(id, sent.version()),
                        () -> StandardForm.of(register.require(id), temperatures))) {
            redirect.addFlashAttribute("flash", "instruments.standard.removed");
            return "redirect:/standards";
        }
        return "instruments/standard-form";
    }

    /** What the page shows of a standard besides its form. */
    private void show(StandardView stored, Model model, Locale locale) {
        model.addAttribute("stored", stored);
        model.addAttribute(
                "recipe",
                made.recipe(stored.id()).map(recipe -> words(recipe, locale)).orElse(null));
        model.addAttribute("doubtedBalances", made.doubtedBalances(stored.id()));
    }

    private String words(StandardRecipe recipe, Locale locale) {
        String balance = instruments.require(recipe.balance()).code();
        return messages.getMessage(
                "instruments.recipe",
                new Object[] {
                    Days.day(recipe.madeOn(), locale),
                    NumberText.plain(recipe.soluteGrams(), locale),
                    messages.getMessage("instruments.solute.within." + recipe.solute(), null, locale),
                    NumberText.plain(recipe.purityPercent(), locale),
                    NumberText.plain(recipe.purityGiveOrTake(), locale),
                    balance,
                    NumberText.plain(recipe.waterGrams(), locale),
                    recipe.waterBalance()
                            .map(id -> instruments.require(id).code())
                            .orElse(balance)
                },
                locale);
    }

    private String sent(
            StandardForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect,
            Optional<BigDecimal> storedTemperature,
            Consumer<NewStandard> save,
            Supplier<StandardForm> stored) {
        Optional<NewStandard> read = result.hasErrors()
                ? Optional.empty()
                : new FormReader(result, locale).read(() -> form.toCommand(temperatures, storedTemperature));
        Consumer<NewStandard> inOwnUnit = stated -> {
            try {
                save.accept(stated);
            } catch (FieldRefusal refusal) {
                throw temperatures.shown(refusal);
            }
        };
        if (new SentForm(result, model, response).saved(form, read, inOwnUnit, stored)) {
            redirect.addFlashAttribute("flash", "instruments.saved");
            return "redirect:/standards";
        }
        return "instruments/standard-form";
    }
}
