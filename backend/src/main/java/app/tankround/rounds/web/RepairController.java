package app.tankround.rounds.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.DayRepairs;
import app.tankround.rounds.DayRepairs.Happening;
import app.tankround.rounds.DayRepairs.Kind;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Plans the rest of a day anew when something happens; who would be told what stands there before it is accepted. */
@Controller
class RepairController {

    /**
     * What happened, as the form says it.
     *
     * @param based as the proposal that is accepted had it; null where one is asked for
     */
    record RepairForm(
            @Nullable LocalDate date,
            @Nullable LocalTime at,
            @Nullable Kind kind,
            @Nullable VanId van,
            @Nullable SiteId site,
            @Nullable SiteId other,
            @Nullable Integer minutes,
            @Nullable LocalTime by,
            @Nullable String price,
            @Nullable String based) {}

    private static final int USUAL_MINUTES = 40;

    private final DayRepairs repairs;
    private final DueVisits dueVisits;
    private final Fleet fleet;
    private final SiteService sites;
    private final BusinessProfile business;
    private final Clock clock;
    private final MessageSource messages;
    private final PlanWords words;

    RepairController(
            DayRepairs repairs,
            DueVisits dueVisits,
            Fleet fleet,
            SiteService sites,
            BusinessProfile business,
            Clock clock,
            MessageSource messages,
            PlanWords words) {
        this.repairs = repairs;
        this.dueVisits = dueVisits;
        this.fleet = fleet;
        this.sites = sites;
        this.business = business;
        this.clock = clock;
        this.messages = messages;
        this.words = words;
    }

    @GetMapping("/rounds/repair")
    String ask(@ModelAttribute("form") RepairForm asked, BindingResult result, Model model, Locale locale) {
        LocalTime now = LocalTime.now(clock.withZone(business.current().zone())).truncatedTo(ChronoUnit.MINUTES);
        model.addAttribute(
                "form",
                new RepairForm(
                        Optional.ofNullable(asked.date()).orElseGet(dueVisits::today),
                        now,
                        null,
                        null,
                        null,
                        null,
                        USUAL_MINUTES,
                        null,
                        null,
                        null));
        return form(model, locale);
    }

    private String form(Model model, Locale locale) {
        model.addAttribute("currency", business.current().currency().getCode());
        model.addAttribute(
                "kinds",
                Arrays.stream(Kind.values())
                        .map(kind -> new Choice(
                                kind.name(), messages.getMessage("rounds.repair.kind." + kind, null, locale)))
                        .toList());
        model.addAttribute(
                "vans",
                fleet.vans().stream()
                        .map(van -> new Choice(van.id().toString(), van.name()))
                        .toList());
        model.addAttribute(
                "sites",
                sites.all().stream()
                        .filter(site -> !site.isOwnDepot())
                        .sorted(Comparator.comparing(SiteView::title))
                        .map(site -> new Choice(site.id().toString(), site.title()))
                        .toList());
        return "rounds/repair";
    }

    @PostMapping("/rounds/repair")
    String propose(
            @ModelAttribute("form") RepairForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                Optional<BigDecimal> price = new FormReader(result, locale)
                        .number("price", form.price(), BigDecimal.ZERO, NewAgreement.HIGHEST_PRICE);
                if (result.hasErrors()) {
                    return form(model, locale);
                }
                Happening happening = happening(form, price);
                if (form.based() != null) {
                    repairs.accept(happening, form.based());
                    redirect.addFlashAttribute("flash", "rounds.repair.done");
                    return "redirect:/rounds?date=" + happening.date();
                }
                model.addAttribute("proposal", repairs.propose(happening));
                model.addAttribute("words", words);
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return form(model, locale);
    }

    private static Happening happening(RepairForm form, Optional<BigDecimal> price) {
        if (form.kind() == null) {
            throw new FieldRefusal("kind", "rounds.repair.needed");
        }
        if (form.date() == null) {
            throw new FieldRefusal("date", "rounds.repair.needed");
        }
        if (form.at() == null) {
            throw new FieldRefusal("at", "rounds.repair.needed");
        }
        return new Happening(
                form.kind(),
                form.date(),
                form.at(),
                form.van(),
                form.site(),
                form.other(),
                Optional.ofNullable(form.minutes()).orElse(0),
                form.by(),
                price.orElse(null));
    }
}
