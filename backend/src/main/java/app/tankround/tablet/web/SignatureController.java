package app.tankround.tablet.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.Days;
import app.tankround.tablet.SigningByLink;
import app.tankround.visits.SignatureLink;
import app.tankround.visits.SignatureLinks;
import app.tankround.web.FieldRefusal;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Where a client signs later, without an account: the link is all that is asked for. */
@Controller
class SignatureController {

    private static final String FORM = "form";
    private static final String THANKS = "thanks";

    /** @param typed the name stands for a signature */
    record SignatureForm(
            @Nullable String name,
            @Nullable String drawing,
            boolean typed,
            @Nullable String shown) {}

    private final SigningByLink signing;
    private final BusinessProfile business;
    private final Days days;

    SignatureController(SigningByLink signing, BusinessProfile business, Days days) {
        this.signing = signing;
        this.business = business;
        this.days = days;
    }

    /** 410 for a link that cannot be used any more, 404 for one that never was made. */
    @GetMapping("/signature/{token}")
    String open(@PathVariable String token, Model model, Locale locale, HttpServletResponse response) {
        Optional<SigningByLink.Behind> behind = signing.find(token);
        boolean open = behind.filter(found -> found.link().isOpen()).isPresent();
        if (!open) {
            return closed(behind, model, locale, response);
        }
        model.addAttribute(FORM, new SignatureForm(null, null, false, null));
        return page(token, behind.get(), model, locale);
    }

    /** 422 where something is missing, 409 where the visit changed since it was shown. */
    @PostMapping("/signature/{token}")
    String sign(
            @PathVariable String token,
            @ModelAttribute(FORM) SignatureForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        try {
            signing.sign(token, new SigningByLink.Signed(form.name(), form.drawing(), form.typed(), form.shown()));
            redirect.addFlashAttribute(THANKS, true);
            return "redirect:/signature/" + token;
        } catch (FieldRefusal refusal) {
            refusal.into(result);
            response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
        } catch (SigningByLink.Changed changed) {
            response.setStatus(HttpStatus.CONFLICT.value());
            model.addAttribute("changedMeanwhile", true);
            // What was drawn was meant for something else.
            model.addAttribute(FORM, new SignatureForm(form.name(), null, false, null));
        } catch (SignatureLinks.Closed over) {
            return closed(signing.find(token), model, locale, response);
        }
        Optional<SigningByLink.Behind> behind = signing.find(token);
        if (behind.filter(found -> found.link().isOpen()).isEmpty()) {
            return closed(behind, model, locale, response);
        }
        return page(token, behind.get(), model, locale);
    }

    private String page(String token, SigningByLink.Behind behind, Model model, Locale locale) {
        model.addAttribute("token", token);
        model.addAttribute("visit", behind.visit());
        model.addAttribute("until", days.moment(behind.link().validUntil(), locale));
        model.addAttribute("changedSince", behind.changedSince());
        addContact(model);
        return "tablet/signature";
    }

    private String closed(
            Optional<SigningByLink.Behind> behind, Model model, Locale locale, HttpServletResponse response) {
        Optional<SignatureLink.State> state = behind.map(found -> found.link().state());
        boolean thanks = model.containsAttribute(THANKS)
                && state.filter(SignatureLink.State.USED::equals).isPresent();
        behind.flatMap(SigningByLink.Behind::signature).ifPresent(signature -> {
            model.addAttribute("signedBy", signature.name().orElse(""));
            model.addAttribute("signedAt", days.moment(signature.at(), locale));
            model.addAttribute("outdated", signature.outdated());
        });
        model.addAttribute("why", thanks ? "THANKS" : state.map(Enum::name).orElse("UNKNOWN"));
        addContact(model);
        if (!thanks) {
            response.setStatus((state.isPresent() ? HttpStatus.GONE : HttpStatus.NOT_FOUND).value());
        }
        return "tablet/signature-closed";
    }

    /** Whom to ask. */
    private void addContact(Model model) {
        Optional<BusinessSettings> settings = business.find();
        model.addAttribute("business", settings.map(BusinessSettings::name).orElse(""));
        model.addAttribute(
                "reach",
                settings.stream()
                        .flatMap(known -> Stream.of(known.phone(), known.email()))
                        .flatMap(Optional::stream)
                        .collect(Collectors.joining(" · ")));
    }
}
