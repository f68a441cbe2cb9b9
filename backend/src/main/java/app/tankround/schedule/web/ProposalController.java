package app.tankround.schedule.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.persistence.Uuids;
import app.tankround.schedule.AgreementId;
import app.tankround.schedule.DueCheck;
import app.tankround.schedule.DueChecks;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.OneOffVisits;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposals;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
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
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Work that is due beside the agreed visits, why, and with which visit it goes. */
@Controller
class ProposalController {

    /** What people propose; the rest is known elsewhere. */
    private static final List<WorkProposal.Source> BY_PEOPLE =
            List.of(WorkProposal.Source.RETEST, WorkProposal.Source.REPAIR, WorkProposal.Source.OTHER);

    private static final int DAYS_OF_CHECKS = 14;
    private static final int WEEKS_AHEAD = 104;
    private static final String USUAL_MINUTES = "15";

    /** @param id made when the form is shown, so that sending it twice proposes once */
    record ProposalForm(
            String id,
            @Nullable String waterSystem,
            @Nullable String source,
            @Nullable String quantity,
            @Nullable String reason,
            @Nullable String earliest,
            @Nullable String latest,
            @Nullable String minutes) {}

    /** When the visit is, and what it costs. */
    record VisitForm(@Nullable String day, @Nullable String price) {}

    /** A line of the list. */
    record Line(WorkProposals.Open open, WaterSystemView system, SiteView site) {}

    /** A step that goes with a visit. */
    record Step(WorkProposals.Beside beside, WaterSystemView system, SiteView site) {}

    private final WorkProposals proposals;
    private final DueChecks checks;
    private final DueVisits dueVisits;
    private final OneOffVisits oneOffs;
    private final BusinessProfile business;
    private final WaterSystems systems;
    private final SiteService sites;
    private final SystemChoices choices;
    private final MessageSource messages;
    private final Clock clock;

    ProposalController(
            WorkProposals proposals,
            DueChecks checks,
            DueVisits dueVisits,
            OneOffVisits oneOffs,
            BusinessProfile business,
            WaterSystems systems,
            SiteService sites,
            SystemChoices choices,
            MessageSource messages,
            Clock clock) {
        this.proposals = proposals;
        this.checks = checks;
        this.dueVisits = dueVisits;
        this.oneOffs = oneOffs;
        this.business = business;
        this.systems = systems;
        this.sites = sites;
        this.choices = choices;
        this.messages = messages;
        this.clock = clock;
    }

    @GetMapping("/proposals")
    String list(Model model) {
        proposals.gather();
        LocalDate today = dueVisits.today();
        model.addAttribute("today", today);
        model.addAttribute(
                "lines",
                proposals.open().stream()
                        .map(open -> {
                            WaterSystemView system =
                                    systems.require(open.proposal().system());
                            return new Line(open, system, sites.require(system.siteId()));
                        })
                        .toList());
        model.addAttribute(
                "steps",
                proposals.besideVisits().stream()
                        .map(beside -> {
                            WaterSystemView system = systems.require(beside.system());
                            return new Step(beside, system, sites.require(system.siteId()));
                        })
                        .toList());
        model.addAttribute(
                "checks",
                checks.on(today.plusDays(DAYS_OF_CHECKS)).stream()
                        .filter(DueCheck::isOpen)
                        .toList());
        return "schedule/proposals";
    }

    @GetMapping("/proposals/new")
    String blank(@RequestParam(required = false) @Nullable WaterSystemId system, Model model, Locale locale) {
        LocalDate today = dueVisits.today();
        model.addAttribute(
                "form",
                new ProposalForm(
                        Uuids.next(clock.instant()).toString(),
                        system == null ? null : system.toString(),
                        WorkProposal.Source.RETEST.name(),
                        null,
                        null,
                        today.toString(),
                        today.plusWeeks(1).toString(),
                        USUAL_MINUTES));
        return form(model, locale);
    }

    @PostMapping("/proposals/new")
    String add(
            @ModelAttribute("form") ProposalForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        try {
            Optional<WorkProposal> asked = read(form, new FormReader(result, locale));
            if (asked.isPresent()) {
                proposals.propose(asked.get());
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/proposals";
            }
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        }
        return form(model, locale);
    }

    @GetMapping("/proposals/{id}/visit")
    String askWhen(@PathVariable UUID id, Model model) {
        WorkProposals.Open waiting = proposals.require(id);
        LocalDate today = dueVisits.today();
        LocalDate first = waiting.proposal().earliest();
        model.addAttribute("form", new VisitForm((first.isBefore(today) ? today : first).toString(), null));
        return visitForm(waiting, model);
    }

    @PostMapping("/proposals/{id}/visit")
    String accept(
            @PathVariable UUID id,
            @ModelAttribute("form") VisitForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        var reader = new FormReader(result, locale);
        LocalDate today = dueVisits.today();
        Optional<LocalDate> day = reader.requiredDate("day", form.day(), today, today.plusWeeks(WEEKS_AHEAD));
        Optional<BigDecimal> price = reader.number("price", form.price(), BigDecimal.ZERO, NewAgreement.HIGHEST_PRICE);
        if (reader.accepted()) {
            try {
                AgreementId agreed =
                        proposals.accept(id, day.orElseThrow(), price).agreementId();
                redirect.addFlashAttribute("flash", "schedule.proposal.agreed");
                return "redirect:/agreements/" + agreed;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return visitForm(proposals.require(id), model);
    }

    private String visitForm(WorkProposals.Open waiting, Model model) {
        WaterSystemView system = systems.require(waiting.proposal().system());
        model.addAttribute("proposal", waiting.proposal());
        model.addAttribute("system", system);
        model.addAttribute("site", sites.require(system.siteId()));
        model.addAttribute("currency", business.current().currency().getCode());
        model.addAttribute("usual", oneOffs.usualPrice(system).orElse(null));
        return "schedule/proposal-visit";
    }

    @PostMapping("/proposals/{id}/withdraw")
    String withdraw(@PathVariable UUID id, RedirectAttributes redirect) {
        proposals.withdraw(id);
        redirect.addFlashAttribute("flash", "web.saved");
        return "redirect:/proposals";
    }

    private Optional<WorkProposal> read(ProposalForm form, FormReader reader) {
        LocalDate today = dueVisits.today();
        LocalDate last = today.plusWeeks(WEEKS_AHEAD);
        Optional<UUID> system = reader.id("waterSystem", form.waterSystem());
        Optional<WorkProposal.Source> source = reader.choice("source", form.source(), WorkProposal.Source.class);
        Optional<LocalDate> earliest = reader.requiredDate("earliest", form.earliest(), today.minusWeeks(1), last);
        Optional<LocalDate> latest = reader.requiredDate("latest", form.latest(), today.minusWeeks(1), last);
        Optional<Integer> minutes = reader.requiredWhole("minutes", form.minutes(), 0, WorkProposal.MOST_MINUTES);
        Optional<Quantity> quantity =
                form.quantity() == null ? Optional.empty() : reader.choice("quantity", form.quantity(), Quantity.class);
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return Optional.of(new WorkProposal(
                FormReader.madeWith("work-proposal", form.id()),
                WaterSystemId.of(system.orElseThrow()),
                source.orElseThrow(),
                Objects.requireNonNullElse(form.reason(), ""),
                earliest.orElseThrow(),
                latest.orElseThrow(),
                minutes.orElseThrow(),
                quantity,
                Optional.empty()));
    }

    private String form(Model model, Locale locale) {
        model.addAttribute("systems", choices.all());
        model.addAttribute(
                "sources",
                BY_PEOPLE.stream()
                        .map(source -> new Choice(
                                source.name(), messages.getMessage("schedule.proposal.source." + source, null, locale)))
                        .toList());
        model.addAttribute(
                "quantities",
                Quantity.read().stream()
                        .map(quantity ->
                                new Choice(quantity.name(), messages.getMessage("quantity." + quantity, null, locale)))
                        .toList());
        return "schedule/proposal-form";
    }
}
