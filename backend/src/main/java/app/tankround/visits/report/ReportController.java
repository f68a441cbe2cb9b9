package app.tankround.visits.report;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Days;
import app.tankround.clients.SiteService;
import app.tankround.documents.StoredFile;
import app.tankround.network.SecureAddresses;
import app.tankround.visits.SignatureLinks;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitReport;
import app.tankround.visits.VisitService;
import app.tankround.web.FieldRefusal;
import jakarta.servlet.http.HttpServletRequest;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.IntConsumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.springframework.web.servlet.support.ServletUriComponentsBuilder;

/** The versions of a visit's report: make, look, send. */
@Controller
class ReportController {

    /** @param version of the report that is sent or handed over */
    record DeliveryForm(@Nullable Integer version, @Nullable String recipient) {}

    private final VisitReport reports;
    private final VisitService visits;
    private final BusinessProfile business;
    private final SiteService sites;
    private final SignatureLinks links;
    private final SecureAddresses addresses;
    private final Days days;

    ReportController(
            VisitReport reports,
            VisitService visits,
            BusinessProfile business,
            SiteService sites,
            SignatureLinks links,
            SecureAddresses addresses,
            Days days) {
        this.reports = reports;
        this.visits = visits;
        this.business = business;
        this.sites = sites;
        this.links = links;
        this.addresses = addresses;
        this.days = days;
    }

    @GetMapping("/visits/{id}/report")
    String report(@PathVariable VisitId id, @ModelAttribute("form") DeliveryForm form, Model model, Locale locale) {
        return page(id, model, locale);
    }

    private String page(VisitId id, Model model, Locale locale) {
        var visit = visits.require(id);
        ZoneId zone = business.current().zone();
        model.addAttribute("visit", visit);
        model.addAttribute("site", sites.require(visit.siteId()));
        visit.signature().ifPresent(signature -> model.addAttribute("signedOn", days.day(signature.at(), locale)));
        model.addAttribute("signatureNeeded", SignatureLinks.isNeeded(visit));
        links.open(id).ifPresent(open -> model.addAttribute("linkUntil", days.moment(open.validUntil(), locale)));
        model.addAttribute("versions", reports.versions(id));
        model.addAttribute("deliveries", reports.deliveries(id));
        List<VisitReport.Doubted> doubted = reports.doubted(id);
        model.addAttribute("doubted", doubted);
        model.addAttribute(
                "doubtedVersions",
                doubted.stream().map(VisitReport.Doubted::version).collect(Collectors.toSet()));
        model.addAttribute("overtaken", reports.isOvertaken(id));
        model.addAttribute("recipients", reports.recipients(id));
        model.addAttribute("canMail", reports.canMail());
        model.addAttribute(
                "moment",
                DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT)
                        .withLocale(locale)
                        .withZone(zone));
        return "visits/report";
    }

    @PostMapping("/visits/{id}/report")
    String make(
            @PathVariable VisitId id,
            @ModelAttribute("form") DeliveryForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        try {
            reports.make(id);
        } catch (FieldRefusal refusal) {
            refusal.into(result);
            return page(id, model, locale);
        }
        redirect.addFlashAttribute("flash", "report.made");
        return "redirect:/visits/" + id + "/report";
    }

    @PostMapping("/visits/{id}/signature-link")
    String makeLink(
            @PathVariable VisitId id,
            @ModelAttribute("form") DeliveryForm form,
            BindingResult result,
            HttpServletRequest request,
            Model model,
            Locale locale) {
        try {
            // No redirect: what is carried over one lies in the database for a while, and this secret never shall.
            String token = links.tokenFor(id);
            model.addAttribute("link", here(token));
            if (!request.isSecure()) {
                model.addAttribute("elsewhere", elsewhere(token));
            }
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        }
        return page(id, model, locale);
    }

    @PostMapping("/visits/{id}/signature-link/mail")
    String mailLink(
            @PathVariable VisitId id,
            @ModelAttribute("form") DeliveryForm form,
            BindingResult result,
            HttpServletRequest request,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        try {
            links.send(id, token -> request.isSecure() ? here(token) : elsewhere(token));
        } catch (FieldRefusal refusal) {
            refusal.into(result);
            return page(id, model, locale);
        }
        redirect.addFlashAttribute("flash", "report.signature-link.queued");
        return "redirect:/visits/" + id + "/report";
    }

    private static String here(String token) {
        return ServletUriComponentsBuilder.fromCurrentContextPath()
                .path(path(token))
                .toUriString();
    }

    /** As another device reaches it, where this one speaks to the program on its own machine. */
    private String elsewhere(String token) {
        return addresses.elsewhere(path(token)).orElseGet(() -> here(token));
    }

    private static String path(String token) {
        return "/signature/" + token;
    }

    @PostMapping("/visits/{id}/report/mail")
    String mail(
            @PathVariable VisitId id,
            @ModelAttribute("form") DeliveryForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        return deliver(
                id, form, result, model, locale, redirect, "report.queued", version -> reports.send(id, version));
    }

    @PostMapping("/visits/{id}/report/by-hand")
    String byHand(
            @PathVariable VisitId id,
            @ModelAttribute("form") DeliveryForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        return deliver(
                id,
                form,
                result,
                model,
                locale,
                redirect,
                "report.handed-over",
                version -> reports.handOver(id, version, form.recipient()));
    }

    private String deliver(
            VisitId id,
            DeliveryForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect,
            String done,
            IntConsumer delivery) {
        Integer version = form.version();
        if (version == null && !result.hasErrors()) {
            result.rejectValue("version", "report.version-missing", null, null);
        }
        if (version != null && !result.hasErrors()) {
            try {
                delivery.accept(version);
                redirect.addFlashAttribute("flash", done);
                return "redirect:/visits/" + id + "/report";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return page(id, model, locale);
    }

    @GetMapping("/visits/{id}/report.pdf")
    ResponseEntity<byte[]> pdf(@PathVariable VisitId id, @RequestParam(required = false) @Nullable Integer version) {
        StoredFile file = reports.pdf(id, Optional.ofNullable(version));
        return ResponseEntity.ok()
                .contentType(MediaType.parseMediaType(file.mediaType()))
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.inline()
                                .filename(file.name())
                                .build()
                                .toString())
                .header(HttpHeaders.CACHE_CONTROL, "private, no-store")
                .body(file.content());
    }
}
