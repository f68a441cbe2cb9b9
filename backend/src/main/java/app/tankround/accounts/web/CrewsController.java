package app.tankround.accounts.web;

import app.tankround.accounts.Absence;
import app.tankround.accounts.CrewView;
import app.tankround.accounts.Crews;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.accounts.Skill;
import app.tankround.accounts.SkillsView;
import app.tankround.accounts.VanId;
import app.tankround.persistence.Uuids;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import app.tankround.web.VersionedForm;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
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

/** Who rides in which van when, what people may do, and when they are away. */
@Controller
class CrewsController {

    private static final String CREW = "accounts/crew";
    private static final String PERSON = "accounts/crew-person";
    private static final int SHOWN_YEARS = 1;

    private final Crews crews;
    private final Fleet fleet;
    private final People people;
    private final Clock clock;

    CrewsController(Crews crews, Fleet fleet, People people, Clock clock) {
        this.crews = crews;
        this.fleet = fleet;
        this.people = people;
        this.clock = clock;
    }

    /** What a person may do, as ticked. */
    record SkillsForm(
            int version,
            @Nullable Boolean electrician,
            @Nullable Boolean diving) implements VersionedForm<SkillsForm> {

        SkillsForm {
            electrician = Boolean.TRUE.equals(electrician);
            diving = Boolean.TRUE.equals(diving);
        }

        static SkillsForm of(SkillsView known) {
            return new SkillsForm(
                    known.version(),
                    known.skills().contains(Skill.ELECTRICIAN),
                    known.skills().contains(Skill.DIVING));
        }

        @Override
        public SkillsForm withVersion(int newest) {
            return new SkillsForm(newest, electrician, diving);
        }

        SkillsView toCommand(PersonId person) {
            Set<Skill> skills = EnumSet.noneOf(Skill.class);
            if (Boolean.TRUE.equals(electrician)) {
                skills.add(Skill.ELECTRICIAN);
            }
            if (Boolean.TRUE.equals(diving)) {
                skills.add(Skill.DIVING);
            }
            return new SkillsView(person, skills, version);
        }
    }

    /** Days away, as typed. */
    record AbsenceForm(
            @Nullable UUID id,
            @Nullable LocalDate first,
            @Nullable LocalDate last,
            @Nullable String reason) {}

    @GetMapping("/vans/{id}/crew")
    String crew(@PathVariable VanId id, Model model) {
        showVan(id, model);
        model.addAttribute("form", CrewForm.of(crews.of(id)));
        return CREW;
    }

    @PostMapping("/vans/{id}/crew")
    String changeCrew(
            @PathVariable VanId id,
            @ModelAttribute("form") CrewForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        showVan(id, model);
        Optional<CrewView> crew = form.toCommand(id, new FormReader(result, locale));
        if (new SentForm(result, model, response).saved(form, crew, crews::change, () -> CrewForm.of(crews.of(id)))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/vans";
        }
        return CREW;
    }

    private void showVan(VanId id, Model model) {
        model.addAttribute("van", fleet.require(id));
        model.addAttribute("weekdays", DayOfWeek.values());
        model.addAttribute(
                "riders",
                people.all().stream()
                        .filter(person -> person.active() && person.role() != Role.CLIENT)
                        .map(person -> new Choice(person.id().toString(), person.name()))
                        .toList());
    }

    @GetMapping("/vans/people/{id}")
    String person(@PathVariable PersonId id, Model model) {
        showPerson(id, model);
        model.addAttribute("form", SkillsForm.of(crews.skills(id)));
        model.addAttribute("absence", blank());
        return PERSON;
    }

    private AbsenceForm blank() {
        return new AbsenceForm(Uuids.next(clock.instant()), null, null, null);
    }

    private void showPerson(PersonId id, Model model) {
        // The layout knows whoever is signed in as the person.
        model.addAttribute("who", people.require(id));
        List<Absence> away =
                crews.absences(LocalDate.now(clock.withZone(ZoneOffset.UTC)).minusYears(SHOWN_YEARS)).stream()
                        .filter(absence -> absence.person().equals(id))
                        .toList();
        model.addAttribute("absences", away);
    }

    @PostMapping("/vans/people/{id}/skills")
    String changeSkills(
            @PathVariable PersonId id,
            @ModelAttribute("form") SkillsForm form,
            BindingResult result,
            Model model,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        showPerson(id, model);
        model.addAttribute("absence", blank());
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        Optional.of(form.toCommand(id)),
                        crews::changeSkills,
                        () -> SkillsForm.of(crews.skills(id)))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/vans/people/" + id;
        }
        return PERSON;
    }

    @PostMapping("/vans/people/{id}/absences")
    String addAbsence(
            @PathVariable PersonId id,
            @ModelAttribute("absence") AbsenceForm form,
            BindingResult result,
            Model model,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                crews.addAbsence(
                        form.id() == null ? Uuids.next(clock.instant()) : form.id(),
                        id,
                        form.first(),
                        form.last(),
                        form.reason());
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/vans/people/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        showPerson(id, model);
        model.addAttribute("form", SkillsForm.of(crews.skills(id)));
        return PERSON;
    }

    @PostMapping("/vans/people/{id}/absences/{absence}/removed")
    String removeAbsence(@PathVariable PersonId id, @PathVariable UUID absence, RedirectAttributes redirect) {
        crews.removeAbsence(id, absence);
        redirect.addFlashAttribute("flash", "web.saved");
        return "redirect:/vans/people/" + id;
    }
}
