package app.tankround.health.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Role;
import app.tankround.followups.FollowupId;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.health.FirstPage;
import app.tankround.health.HealthReview;
import app.tankround.health.HealthWords;
import app.tankround.health.SystemHealth;
import app.tankround.readings.DoubtLists;
import app.tankround.web.MassText;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** The first page: what needs somebody, and where the vans are. */
@Controller
class TodayController {

    /** As many as one can take in; the rest is one link away. */
    private static final int MOST_LINES = 10;

    private static final int MOST_CHECKS = 5;

    private final FirstPage firstPage;
    private final HealthWords words;
    private final Followups followups;
    private final CurrentPerson currentPerson;
    private final BusinessProfile business;

    TodayController(
            FirstPage firstPage,
            HealthWords words,
            Followups followups,
            CurrentPerson currentPerson,
            BusinessProfile business) {
        this.firstPage = firstPage;
        this.words = words;
        this.followups = followups;
        this.currentPerson = currentPerson;
        this.business = business;
    }

    @GetMapping("/")
    String today(Model model, Locale locale) {
        if (currentPerson.require().role() == Role.TECHNICIAN) {
            return "redirect:/rounds/today";
        }
        FirstPage.Overview overview = firstPage.overview();
        HealthReview.Review review = overview.review();
        List<SystemHealth> needed = review.needed();
        model.addAttribute("overview", overview);
        model.addAttribute("review", review);
        model.addAttribute(
                "lines", words.lines(needed.stream().limit(MOST_LINES).toList(), locale));
        model.addAttribute("moreLines", Math.max(0, needed.size() - MOST_LINES));
        model.addAttribute(
                "checks", overview.checks().stream().limit(MOST_CHECKS).toList());
        model.addAttribute("moreChecks", Math.max(0, overview.checks().size() - MOST_CHECKS));
        model.addAttribute("endsByItself", DoubtLists.MATTER);
        model.addAttribute("masses", new MassText(locale, business.current().unitSystem()));
        model.addAttribute("words", words);
        model.addAttribute("locale", locale);
        model.addAttribute(
                "dayTitle",
                DateTimeFormatter.ofLocalizedDate(FormatStyle.FULL)
                        .withLocale(locale)
                        .format(review.today()));
        return "health/today";
    }

    /** Settles a matter; the note says how. That of a doubt list ends with its last line alone. */
    @PostMapping("/followups/{id}/settle")
    String settle(
            @PathVariable FollowupId id,
            @RequestParam(required = false) @Nullable String note,
            RedirectAttributes redirect) {
        Optional<FollowupView> list = followups.open().stream()
                .filter(matter -> matter.id().equals(id) && matter.code().equals(DoubtLists.MATTER))
                .findFirst();
        if (list.isPresent()) {
            redirect.addFlashAttribute("flash", "health.doubt-list-open");
            return "redirect:" + list.get().page();
        }
        followups.settle(id, note == null ? "" : note.strip());
        redirect.addFlashAttribute("flash", "health.settled");
        return "redirect:/";
    }
}
