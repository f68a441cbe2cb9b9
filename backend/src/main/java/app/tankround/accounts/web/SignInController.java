package app.tankround.accounts.web;

import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.FirstOwner;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.SignInLinks;
import app.tankround.accounts.SignInSession;
import app.tankround.web.FieldRefusal;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Optional;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** The doors: password, one-time link, and the first owner's link of an empty installation. */
@Controller
class SignInController {

    private final SignInLinks links;
    private final SignInSession session;
    private final FirstOwner firstOwner;

    SignInController(SignInLinks links, SignInSession session, FirstOwner firstOwner) {
        this.links = links;
        this.session = session;
        this.firstOwner = firstOwner;
    }

    @GetMapping("/sign-in")
    String signIn(@RequestParam Optional<Integer> wait, Model model) {
        model.addAttribute("wait", wait.filter(seconds -> seconds > 0).orElse(null));
        return "accounts/sign-in";
    }

    @GetMapping("/sign-in/once/{token}")
    String once(@PathVariable String token, HttpServletRequest request, HttpServletResponse response) {
        Optional<PersonId> person = links.use(token);
        if (person.isPresent() && session.open(person.get(), request, response)) {
            return "redirect:/";
        }
        response.setStatus(HttpStatus.GONE.value());
        return "accounts/link-used";
    }

    @GetMapping("/first-owner/{token}")
    String firstOwner(@PathVariable String token, Model model, HttpServletResponse response) {
        if (!firstOwner.isOpen(token)) {
            response.setStatus(HttpStatus.GONE.value());
            return "accounts/link-used";
        }
        model.addAttribute("form", FirstOwnerForm.empty());
        model.addAttribute("token", token);
        return "accounts/first-owner";
    }

    @PostMapping("/first-owner/{token}")
    String setUp(
            @PathVariable String token,
            @ModelAttribute("form") FirstOwnerForm form,
            BindingResult result,
            Model model,
            HttpServletRequest request,
            HttpServletResponse response) {
        model.addAttribute("token", token);
        if (!result.hasErrors()) {
            try {
                BusinessSettings settings = form.settings();
                Optional<PersonId> person =
                        firstOwner.setUp(token, settings, form.signInName(), form.ownerName(), form.password());
                if (person.isPresent() && session.open(person.get(), request, response)) {
                    return "redirect:/";
                }
                response.setStatus(HttpStatus.GONE.value());
                return "accounts/link-used";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
        return "accounts/first-owner";
    }
}
