package app.tankround.accounts.web;

import app.tankround.accounts.Role;
import app.tankround.chemistry.DecisionRule;
import app.tankround.units.UnitSystem;
import app.tankround.web.Choice;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ModelAttribute;

/** What can be chosen in the forms of this module. */
@ControllerAdvice(assignableTypes = {AccountsController.class, SignInController.class})
class AccountChoices {

    private static final List<String> GRAVITY_REFERENCES = List.of("20/20", "25/25", "60F/60F", "20/4", "25/4", "15/4");

    private final MessageSource messages;

    AccountChoices(MessageSource messages) {
        this.messages = messages;
    }

    @ModelAttribute("roleChoices")
    List<Choice> roles(Locale locale) {
        return Stream.of(Role.OWNER, Role.OFFICE, Role.TECHNICIAN)
                .map(role -> new Choice(role.name(), word("accounts.role." + role, locale)))
                .toList();
    }

    @ModelAttribute("unitChoices")
    List<Choice> units(Locale locale) {
        return Stream.of(UnitSystem.values())
                .map(system -> new Choice(system.name(), word("accounts.units." + system, locale)))
                .toList();
    }

    @ModelAttribute("decisionRuleChoices")
    List<Choice> decisionRules(Locale locale) {
        return Stream.of(DecisionRule.values())
                .map(rule -> new Choice(rule.name(), word("accounts.decision-rule." + rule, locale)))
                .toList();
    }

    @ModelAttribute("localeChoices")
    List<Choice> locales(Locale locale) {
        return SettingsForm.LOCALES.stream()
                .map(tag -> new Choice(tag, Locale.forLanguageTag(tag).getDisplayName(locale)))
                .toList();
    }

    @ModelAttribute("gravityChoices")
    List<Choice> gravityReferences() {
        return GRAVITY_REFERENCES.stream()
                .map(reference -> new Choice(reference, reference))
                .toList();
    }

    private String word(String key, Locale locale) {
        return messages.getMessage(key, null, locale);
    }
}
