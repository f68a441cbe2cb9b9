package app.tankround.visits.web;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Days;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Role;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.visits.CallList;
import app.tankround.visits.LoneWorking;
import app.tankround.visits.StayId;
import app.tankround.visits.StayView;
import app.tankround.web.Choice;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
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

/** Whoever is alone somewhere: who is in, who is overdue and who sees to it. */
@Controller
class AloneController {

    /** A stay in words; empty what does not apply. */
    record Line(
            StayView stay,
            String person,
            String site,
            String since,
            String until,
            boolean overdue,
            String answeredBy,
            String out,
            List<Call> calls) {}

    record Call(String person, String at, boolean mailed) {}

    /** Somebody who is told, in words. */
    record Named(String person, String email, String phone, long minutes) {}

    private final LoneWorking alone;
    private final CallList callList;
    private final People people;
    private final SiteService sites;
    private final Days days;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    AloneController(
            LoneWorking alone,
            CallList callList,
            People people,
            SiteService sites,
            Days days,
            CurrentPerson currentPerson,
            Clock clock) {
        this.alone = alone;
        this.callList = callList;
        this.people = people;
        this.sites = sites;
        this.days = days;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    @GetMapping("/alone")
    String all(@ModelAttribute("form") TelephoneForm form, Model model, Locale locale) {
        return page(model, locale);
    }

    private String page(Model model, Locale locale) {
        model.addAttribute(
                "lines", alone.open().stream().map(stay -> line(stay, locale)).toList());
        model.addAttribute(
                "out", alone.lately().stream().map(stay -> line(stay, locale)).toList());
        model.addAttribute("named", named());
        model.addAttribute("mails", alone.mails());
        model.addAttribute("people", staff());
        model.addAttribute(
                "sites",
                sites.all().stream()
                        .map(site -> new Choice(site.id().toString(), site.title()))
                        .toList());
        boolean owner = currentPerson.require().role() == Role.OWNER;
        model.addAttribute("owner", owner);
        return "visits/alone";
    }

    @PostMapping("/alone/check-in")
    String checkIn(
            @ModelAttribute("form") TelephoneForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        FormReader reader = new FormReader(result, locale);
        Optional<PersonId> person = staffMember(form.person());
        if (person.isEmpty()) {
            reader.refuse("person", "visits.alone.person-unknown");
        }
        Optional<SiteId> site = site(form.site());
        if (site.isEmpty()) {
            reader.refuse("site", "visits.site-unknown");
        }
        Optional<Integer> minutes = reader.requiredWhole("minutes", form.minutes(), 1, LoneWorking.LONGEST_MINUTES);
        Optional<StayView> stay = person.flatMap(who -> site.flatMap(where -> minutes.flatMap(most -> reader.read(
                () -> alone.checkInByTelephone(who, where, most, Objects.requireNonNullElse(form.because(), ""))))));
        if (stay.isPresent() && reader.accepted()) {
            redirect.addFlashAttribute("flash", "visits.alone.flash.in");
            return "redirect:/alone";
        }
        return page(model, locale);
    }

    @GetMapping("/alone/{id}")
    String one(@PathVariable UUID id, Model model, Locale locale) {
        model.addAttribute("line", line(alone.require(StayId.of(id)), locale));
        return "visits/alone-stay";
    }

    @PostMapping("/alone/{id}/check-out")
    String checkOut(@PathVariable UUID id, RedirectAttributes redirect) {
        boolean in = alone.checkOutByTelephone(StayId.of(id));
        redirect.addFlashAttribute("flash", in ? "visits.alone.flash.out" : "visits.alone.flash.was-out");
        return "redirect:/alone/" + id;
    }

    @PostMapping("/alone/{id}/answer")
    String answer(@PathVariable UUID id, RedirectAttributes redirect) {
        boolean first = alone.answer(StayId.of(id));
        redirect.addFlashAttribute("flash", first ? "visits.alone.flash.answered" : "visits.alone.flash.was-answered");
        return "redirect:/alone/" + id;
    }

    @PostMapping("/alone/{id}/release")
    String release(@PathVariable UUID id, RedirectAttributes redirect) {
        alone.release(StayId.of(id));
        redirect.addFlashAttribute("flash", "visits.alone.flash.released");
        return "redirect:/alone/" + id;
    }

    @GetMapping("/alone/people")
    String editList(Model model) {
        model.addAttribute("people", staff());
        model.addAttribute("form", CallListForm.of(callList.current()));
        return "visits/alone-people";
    }

    @PostMapping("/alone/people")
    String changeList(
            @ModelAttribute("form") CallListForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        model.addAttribute("people", staff());
        Optional<List<CallList.Line>> lines = form.toCommand(new FormReader(result, locale));
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        lines,
                        read -> callList.change(form.version(), read),
                        () -> CallListForm.of(callList.current()))) {
            redirect.addFlashAttribute("flash", "visits.alone.flash.list");
            return "redirect:/alone";
        }
        return "visits/alone-people";
    }

    private List<Choice> staff() {
        return people.all().stream()
                .filter(person -> person.active() && person.role() != Role.CLIENT)
                .map(person -> new Choice(person.id().toString(), person.name()))
                .toList();
    }

    private Optional<PersonId> staffMember(@Nullable String text) {
        return CallListForm.person(text)
                .flatMap(people::find)
                .filter(person -> person.active() && person.role() != Role.CLIENT)
                .map(PersonView::id);
    }

    private Optional<SiteId> site(@Nullable String text) {
        try {
            return text == null || text.isBlank()
                    ? Optional.empty()
                    : sites.find(SiteId.of(UUID.fromString(text))).map(SiteView::id);
        } catch (IllegalArgumentException malformed) {
            return Optional.empty();
        }
    }

    private List<Named> named() {
        return callList.current().lines().stream()
                .map(line -> new Named(
                        name(line.personId()),
                        line.email(),
                        line.phone().orElse(""),
                        line.patience().toMinutes()))
                .toList();
    }

    private Line line(StayView stay, Locale locale) {
        return new Line(
                stay,
                name(stay.personId()),
                sites.find(stay.siteId()).map(SiteView::title).orElse(""),
                days.moment(stay.checkedInAt(), locale),
                days.moment(stay.latestReturn(), locale),
                stay.isOverdue(clock.instant()),
                stay.answeredBy().map(this::name).orElse(""),
                stay.checkedOutAt().map(at -> days.moment(at, locale)).orElse(""),
                stay.calls().stream()
                        .map(call -> new Call(name(call.personId()), days.moment(call.at(), locale), call.mailed()))
                        .toList());
    }

    private String name(PersonId id) {
        return people.find(id).map(PersonView::name).orElse("");
    }
}
