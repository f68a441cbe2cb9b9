package app.tankround.schedule.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonView;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.persistence.Uuids;
import app.tankround.schedule.AgreementId;
import app.tankround.schedule.AgreementView;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.IntervalGap;
import app.tankround.schedule.KeptGaps;
import app.tankround.schedule.LearnedDurations;
import app.tankround.schedule.LearnedMinutes;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.schedule.VisitRhythm;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.NotFound;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BeanPropertyBindingResult;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What is agreed for each water system, and the due visits that follow. */
@Controller
class AgreementController {

    /** A line of the list. */
    record Line(
            AgreementView agreement,
            WaterSystemView system,
            SiteView site,
            boolean inForce,
            Optional<LearnedMinutes> learned) {}

    /** Why a due visit will not be done. */
    record DropForm(@Nullable String reason) {}

    private static final String AS_IT_IS = "as-it-is";

    private final Agreements agreements;
    private final DueVisits dueVisits;
    private final KeptGaps keptGaps;
    private final People people;
    private final LearnedDurations durations;
    private final WaterSystems systems;
    private final SiteService sites;
    private final SystemChoices choices;
    private final BusinessProfile business;
    private final MessageSource messages;
    private final Clock clock;

    AgreementController(
            Agreements agreements,
            DueVisits dueVisits,
            KeptGaps keptGaps,
            People people,
            LearnedDurations durations,
            WaterSystems systems,
            SiteService sites,
            SystemChoices choices,
            BusinessProfile business,
            MessageSource messages,
            Clock clock) {
        this.agreements = agreements;
        this.dueVisits = dueVisits;
        this.keptGaps = keptGaps;
        this.people = people;
        this.durations = durations;
        this.systems = systems;
        this.sites = sites;
        this.choices = choices;
        this.business = business;
        this.messages = messages;
        this.clock = clock;
    }

    @GetMapping("/agreements")
    String list(Model model) {
        LocalDate today = dueVisits.today();
        List<AgreementView> all = agreements.all();
        Map<AgreementId, LearnedMinutes> learned =
                durations.of(all.stream().map(AgreementView::id).toList());
        model.addAttribute(
                "lines",
                all.stream()
                        .map(agreement -> {
                            WaterSystemView system = systems.require(agreement.waterSystemId());
                            return new Line(
                                    agreement,
                                    system,
                                    sites.require(system.siteId()),
                                    agreement.validOn(today),
                                    recorded(learned, agreement.id()));
                        })
                        .toList());
        return "schedule/agreements";
    }

    /** Only where visits were recorded; what is merely usual for the kind is no news of this agreement. */
    private static Optional<LearnedMinutes> recorded(Map<AgreementId, LearnedMinutes> learned, AgreementId id) {
        return Optional.ofNullable(learned.get(id)).filter(known -> known.visits() > 0);
    }

    @GetMapping("/agreements/{id}")
    String agreement(@PathVariable AgreementId id, Model model) {
        AgreementView agreement = agreements.require(id);
        WaterSystemView system = systems.require(agreement.waterSystemId());
        LocalDate today = dueVisits.today();
        model.addAttribute("agreement", agreement);
        recorded(durations.of(List.of(id)), id).ifPresent(learned -> model.addAttribute("learned", learned));
        model.addAttribute("system", system);
        model.addAttribute("site", sites.require(system.siteId()));
        model.addAttribute("today", today);
        keptGaps.of(id, agreement.tasksOftenerThanVisits()).ifPresent(kept -> {
            model.addAttribute("keptOn", LocalDate.ofInstant(kept.at(), business.zone()));
            model.addAttribute(
                    "keptBy",
                    kept.by().flatMap(people::find).map(PersonView::name).orElse(""));
        });
        model.addAttribute(
                "visits",
                dueVisits.dueFor(system.id()).stream()
                        .filter(visit -> visit.agreementId().equals(id))
                        .toList());
        return "schedule/agreement";
    }

    @GetMapping("/agreements/new")
    String blank(@RequestParam(required = false) @Nullable WaterSystemId system, Model model, Locale locale) {
        model.addAttribute(
                "form", AgreementForm.blank(new AgreementId(Uuids.next(clock.instant())), system, dueVisits.today()));
        return form(model, locale);
    }

    @PostMapping("/agreements/new")
    String add(
            @ModelAttribute("form") AgreementForm typed,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect,
            @RequestParam(required = false) @Nullable String row,
            @RequestParam(required = false) @Nullable String oftener) {
        if (row != null) {
            return withRows(typed, row, model, locale);
        }
        AgreementForm form = typed.withoutEmptyRows();
        BindingResult refusals = refusals(form, model);
        Optional<NewAgreement> asked = form.toCommand(new FormReader(refusals, locale));
        AgreementId id = idOf(form);
        boolean asItIs = AS_IT_IS.equals(oftener);
        if (!asItIs && asksBack(id, asked, model, locale)) {
            return form(model, locale);
        }
        if (new SentForm(refusals, model, response)
                .saved(form, asked, read -> agreements.add(id, read, asItIs), () -> stored(id, model, locale))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/agreements/" + id;
        }
        return form(model, locale);
    }

    @GetMapping("/agreements/{id}/edit")
    String edit(@PathVariable AgreementId id, Model model, Locale locale) {
        model.addAttribute("form", stored(id, model, locale));
        return form(model, locale);
    }

    @PostMapping("/agreements/{id}/edit")
    String change(
            @PathVariable AgreementId id,
            @ModelAttribute("form") AgreementForm typed,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect,
            @RequestParam(required = false) @Nullable String row,
            @RequestParam(required = false) @Nullable String oftener) {
        agreements.require(id);
        model.addAttribute("stored", id);
        if (row != null) {
            return withRows(typed, row, model, locale);
        }
        AgreementForm form = typed.withoutEmptyRows();
        BindingResult refusals = refusals(form, model);
        Optional<NewAgreement> asked = form.toCommand(new FormReader(refusals, locale));
        boolean asItIs = AS_IT_IS.equals(oftener);
        if (!asItIs && asksBack(id, asked, model, locale)) {
            return form(model, locale);
        }
        if (new SentForm(refusals, model, response)
                .saved(
                        form,
                        asked,
                        read -> agreements.change(id, form.version(), read, asItIs),
                        () -> stored(id, model, locale))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/agreements/" + id;
        }
        return form(model, locale);
    }

    /** Binds what the page shows to the form without its empty rows, so that refusals find the rows they are about. */
    private static BindingResult refusals(AgreementForm form, Model model) {
        BindingResult refusals = new BeanPropertyBindingResult(form, "form");
        model.addAttribute("form", form);
        model.addAttribute(BindingResult.MODEL_KEY_PREFIX + "form", refusals);
        return refusals;
    }

    /**
     * Whether something should be done more often than the visits come and nobody has said of exactly that what becomes of
     * it. The page
     * then names the choices; nothing is saved.
     */
    private boolean asksBack(AgreementId id, Optional<NewAgreement> asked, Model model, Locale locale) {
        List<IntervalGap> gaps = asked.map(NewAgreement::tasksOftenerThanVisits).orElse(List.of());
        if (gaps.isEmpty() || keptGaps.of(id, gaps).isPresent()) {
            return false;
        }
        model.addAttribute("gaps", gaps);
        model.addAttribute("socksToLeave", socksToLeave(gaps));
        model.addAttribute(
                "oftenerDays",
                weekdaysFor(gaps, asked.orElseThrow().rhythm()).stream()
                        .sorted()
                        .map(day -> messages.getMessage("schedule.day." + day, null, locale))
                        .collect(Collectors.joining(", ")));
        return true;
    }

    /** All that is missing, as one choice for each size of sock. */
    private static List<TaskView> socksToLeave(List<IntervalGap> gaps) {
        return gaps.stream().flatMap(gap -> gap.leftWithClient().stream()).toList();
    }

    private static Set<DayOfWeek> weekdaysFor(List<IntervalGap> gaps, VisitRhythm rhythm) {
        int shortest = gaps.stream()
                .mapToInt(gap -> gap.task().intervalDays().orElseThrow())
                .min()
                .orElseThrow();
        DayOfWeek kept =
                rhythm.chosenWeekdays().stream().min(Comparator.naturalOrder()).orElse(DayOfWeek.MONDAY);
        return IntervalGap.weekdaysFor(shortest, kept);
    }

    /** The form with one of the choices taken; as it is where it cannot be read. */
    private static AgreementForm withChoice(AgreementForm typed, String row, Locale locale) {
        AgreementForm form = typed.withoutEmptyRows();
        return form.toCommand(new FormReader(new BeanPropertyBindingResult(form, "form"), locale))
                .map(read -> {
                    List<IntervalGap> gaps = read.tasksOftenerThanVisits();
                    if (gaps.isEmpty()) {
                        return form;
                    }
                    return row.equals("more-visits")
                            ? form.withVisitsOn(weekdaysFor(gaps, read.rhythm()))
                            : form.withSocksLeft(socksToLeave(gaps), locale);
                })
                .orElse(form);
    }

    /** The same form with one row more or less; nothing is looked at or saved. */
    private String withRows(AgreementForm form, String row, Model model, Locale locale) {
        refusals(
                switch (row) {
                    case "add" -> form.withOneMoreTask();
                    case "season" -> form.withOneMoreSeason();
                    case "pause" -> form.withOneMorePause();
                    case "more-visits", "leave-socks" -> withChoice(form, row, locale);
                    default -> form.withoutTask(row.matches("\\d{1,2}") ? Integer.parseInt(row) : -1);
                },
                model);
        return form(model, locale);
    }

    private static AgreementId idOf(AgreementForm form) {
        try {
            return AgreementId.parse(form.id());
        } catch (IllegalArgumentException malformed) {
            throw new NotFound("agreement", form.id());
        }
    }

    private AgreementForm stored(AgreementId id, Model model, Locale locale) {
        model.addAttribute("stored", id);
        return AgreementForm.of(agreements.require(id), dueVisits.today(), locale);
    }

    private String form(Model model, Locale locale) {
        model.addAttribute("systems", choices.all());
        model.addAttribute("days", DayOfWeek.values());
        model.addAttribute(
                "patterns",
                Arrays.stream(VisitRhythm.Pattern.values())
                        .map(pattern -> choice(pattern.name(), "schedule.pattern." + pattern, locale))
                        .toList());
        model.addAttribute(
                "kinds",
                Arrays.stream(TaskKind.values())
                        .map(kind -> choice(kind.name(), "schedule.kind." + kind, locale))
                        .toList());
        model.addAttribute(
                "quantities",
                Quantity.ofWater().stream()
                        .map(quantity -> choice(quantity.name(), "quantity." + quantity, locale))
                        .toList());
        model.addAttribute(
                "unitChoices",
                Stream.of("%", "L", "mL", "g", "count")
                        .map(unit -> choice(unit, "schedule.unit." + unit, locale))
                        .toList());
        model.addAttribute("currency", business.current().currency().getCode());
        return "schedule/agreement-form";
    }

    private Choice choice(String value, String key, Locale locale) {
        return new Choice(value, messages.getMessage(key, null, locale));
    }

    @GetMapping("/planned-visits/{id}/drop")
    String askWhy(@PathVariable PlannedVisitId id, Model model) {
        model.addAttribute("form", new DropForm(null));
        return drop(id, model);
    }

    @PostMapping("/planned-visits/{id}/drop")
    String drop(
            @PathVariable PlannedVisitId id,
            @ModelAttribute("form") DropForm form,
            BindingResult result,
            Model model,
            RedirectAttributes redirect) {
        try {
            dueVisits.drop(id, Optional.ofNullable(form.reason()).orElse(""));
            redirect.addFlashAttribute("flash", "schedule.dropped");
            return "redirect:/agreements/" + dueVisits.require(id).agreementId();
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        }
        return drop(id, model);
    }

    private String drop(PlannedVisitId id, Model model) {
        PlannedVisitView visit = dueVisits.require(id);
        WaterSystemView system = systems.require(visit.waterSystemId());
        model.addAttribute("visit", visit);
        model.addAttribute("system", system);
        model.addAttribute("site", sites.require(visit.siteId()));
        return "schedule/drop";
    }
}
