package app.tankround.accounts.web;

import app.tankround.accounts.ApplicationPasswords;
import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.NewPerson;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Role;
import app.tankround.accounts.SignInLinks;
import app.tankround.network.SecureAddresses;
import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import jakarta.servlet.http.HttpServletRequest;
import java.time.Clock;
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
import org.springframework.web.servlet.support.ServletUriComponentsBuilder;

/** The owner's pages about people and the business, and everybody's own account. */
@Controller
class AccountsController {

    record PersonForm(
            @Nullable PersonId id,
            @Nullable String signInName,
            @Nullable String name,
            @Nullable Role role,
            @Nullable String locale,
            boolean active,
            int version) {

        static PersonForm of(PersonView person) {
            return new PersonForm(
                    person.id(),
                    person.signInName(),
                    person.name(),
                    person.role(),
                    person.locale().toLanguageTag(),
                    person.active(),
                    person.version());
        }
    }

    record PasswordForm(String password) {
        PasswordForm {
            password = password == null ? "" : password;
        }
    }

    record ApplicationPasswordForm(String name) {
        ApplicationPasswordForm {
            name = name == null ? "" : name;
        }
    }

    private final People people;
    private final BusinessProfile profile;
    private final SignInLinks links;
    private final ApplicationPasswords applicationPasswords;
    private final CurrentPerson currentPerson;
    private final SecureAddresses addresses;
    private final Clock clock;

    AccountsController(
            People people,
            BusinessProfile profile,
            SignInLinks links,
            ApplicationPasswords applicationPasswords,
            CurrentPerson currentPerson,
            SecureAddresses addresses,
            Clock clock) {
        this.people = people;
        this.profile = profile;
        this.links = links;
        this.applicationPasswords = applicationPasswords;
        this.currentPerson = currentPerson;
        this.addresses = addresses;
        this.clock = clock;
    }

    @GetMapping("/people")
    String people(Model model) {
        model.addAttribute("people", people.all());
        return "accounts/people";
    }

    @GetMapping("/people/new")
    String newPerson(Model model) {
        var id = PersonId.of(Uuids.next(clock.instant()));
        String locale = profile.current().locale().toLanguageTag();
        model.addAttribute("form", new PersonForm(id, null, null, Role.TECHNICIAN, locale, true, 0));
        return "accounts/person";
    }

    @GetMapping("/people/{id}")
    String person(@PathVariable PersonId id, Model model) {
        model.addAttribute("form", PersonForm.of(people.require(id)));
        model.addAttribute("stored", true);
        model.addAttribute("personId", id);
        return "accounts/person";
    }

    @PostMapping("/people/new")
    String add(@ModelAttribute("form") PersonForm form, BindingResult result, RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                PersonId id = form.id() == null ? PersonId.of(Uuids.next(clock.instant())) : form.id();
                people.add(new NewPerson(
                        id,
                        SettingsForm.text(form.signInName()),
                        SettingsForm.text(form.name()),
                        form.role() == null ? Role.TECHNICIAN : form.role(),
                        SettingsForm.knownLocale("locale", SettingsForm.text(form.locale()))));
                redirect.addFlashAttribute("flash", "accounts.person-added");
                return "redirect:/people/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return "accounts/person";
    }

    @PostMapping("/people/{id}")
    String change(
            @PathVariable PersonId id,
            @ModelAttribute("form") PersonForm form,
            BindingResult result,
            Model model,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                people.change(
                        id,
                        SettingsForm.text(form.name()),
                        form.role() == null ? Role.TECHNICIAN : form.role(),
                        SettingsForm.knownLocale("locale", SettingsForm.text(form.locale())),
                        form.active(),
                        form.version());
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/people/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        model.addAttribute("stored", true);
        model.addAttribute("personId", id);
        return "accounts/person";
    }

    @PostMapping("/people/{id}/link")
    String link(@PathVariable PersonId id, HttpServletRequest request, RedirectAttributes redirect) {
        PersonView person = people.require(id);
        String path = "/sign-in/once/" + links.tokenFor(person.id());
        String address =
                ServletUriComponentsBuilder.fromCurrentContextPath().path(path).toUriString();
        redirect.addFlashAttribute("link", address);
        if (!request.isSecure()) {
            addresses.elsewhere(path).ifPresent(there -> redirect.addFlashAttribute("elsewhere", there));
        }
        return "redirect:/people/" + id;
    }

    @GetMapping("/settings")
    String settings(Model model) {
        model.addAttribute("form", SettingsForm.of(profile.current()));
        return "accounts/settings";
    }

    @PostMapping("/settings")
    String saveSettings(@ModelAttribute("form") SettingsForm form, BindingResult result, RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                profile.save(form.settings());
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/settings";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return "accounts/settings";
    }

    @GetMapping("/account")
    String account(Model model) {
        return account(model, new PasswordForm(""), new ApplicationPasswordForm(""));
    }

    private String account(Model model, PasswordForm form, ApplicationPasswordForm named) {
        PersonView me = currentPerson.require();
        model.addAttribute("form", form);
        model.addAttribute("named", named);
        model.addAttribute("me", me);
        model.addAttribute("zone", profile.zone());
        model.addAttribute("applicationPasswords", applicationPasswords.of(me.id()));
        return "accounts/account";
    }

    @PostMapping("/account/password")
    String password(
            @ModelAttribute("form") PasswordForm form, BindingResult result, Model model, RedirectAttributes redirect) {
        try {
            people.setPassword(currentPerson.require().id(), form.password());
            redirect.addFlashAttribute("flash", "accounts.password-saved");
            return "redirect:/account";
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        }
        return account(model, form, new ApplicationPasswordForm(""));
    }

    @PostMapping("/account/application-passwords")
    String makeApplicationPassword(
            @ModelAttribute("named") ApplicationPasswordForm named, BindingResult result, Model model) {
        try {
            // No redirect: what is carried over one lies in the database for a while, and this secret never shall.
            model.addAttribute(
                    "made", applicationPasswords.make(currentPerson.require().id(), named.name()));
            return account(model, new PasswordForm(""), new ApplicationPasswordForm(""));
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        }
        return account(model, new PasswordForm(""), named);
    }

    @PostMapping("/account/application-passwords/{id}/revoke")
    String revokeApplicationPassword(@PathVariable UUID id, RedirectAttributes redirect) {
        applicationPasswords.revoke(currentPerson.require().id(), id);
        redirect.addFlashAttribute("flash", "accounts.app-password.revoked");
        return "redirect:/account#application-passwords";
    }
}
