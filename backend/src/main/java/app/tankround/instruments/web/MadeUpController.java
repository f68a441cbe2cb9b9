package app.tankround.instruments.web;

import app.tankround.accounts.Days;
import app.tankround.chemistry.WeighedSolution.Solute;
import app.tankround.instruments.MadeUpStandards;
import app.tankround.instruments.NewMadeUpStandard;
import app.tankround.instruments.StandardId;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.time.Clock;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** A standard that somebody makes up on a balance. */
@Controller
class MadeUpController {

    private static final String PAGE = "instruments/made-up-form";

    private final MadeUpStandards made;
    private final MessageSource messages;
    private final Days days;
    private final Clock clock;

    MadeUpController(MadeUpStandards made, MessageSource messages, Days days, Clock clock) {
        this.made = made;
        this.messages = messages;
        this.days = days;
        this.clock = clock;
    }

    @ModelAttribute("solutes")
    List<Choice> solutes(Locale locale) {
        return Arrays.stream(Solute.values())
                .map(solute -> new Choice(
                        solute.name(), messages.getMessage("instruments.solute." + solute.name(), null, locale)))
                .toList();
    }

    @ModelAttribute("balances")
    List<Choice> balances() {
        return made.balances().stream()
                .map(balance -> new Choice(balance.id().toString(), balance.code() + ", " + balance.name()))
                .toList();
    }

    @GetMapping("/standards/made-up/new")
    String newStandard(Model model) {
        model.addAttribute("form", MadeUpForm.empty(days.of(clock.instant())));
        return PAGE;
    }

    @PostMapping("/standards/made-up/new")
    String add(
            @ModelAttribute("form") MadeUpForm form, BindingResult result, Locale locale, RedirectAttributes redirect) {
        Optional<NewMadeUpStandard> read =
                result.hasErrors() ? Optional.empty() : new FormReader(result, locale).read(form::toCommand);
        if (read.isEmpty()) {
            return PAGE;
        }
        try {
            StandardId id = made.add(read.get());
            redirect.addFlashAttribute("flash", "instruments.saved");
            return "redirect:/standards/" + id;
        } catch (FieldRefusal refusal) {
            refusal.into(result);
            return PAGE;
        }
    }
}
