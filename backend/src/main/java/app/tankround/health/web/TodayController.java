package app.tankround.health.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Role;
import app.tankround.followups.FollowupId;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Urgency;
import app.tankround.health.FirstPage;
import app.tankround.health.HealthReview;
import app.tankround.health.HealthWords;
import app.tankround.health.SystemHealth;
import app.tankround.readings.DoubtLists;
import app.tankround.web.MassText;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** The first page: what needs somebody, and where the vans are. */
@Controller
class TodayController {

    /** As many as one can take in; the rest is one link away. */
    private static final int MOST_LINES = 10;

    private static final int MOST_CHECKS = 5;

    private final FirstPage firstPage;
    private final HealthWords words;
    private final CurrentPerson currentPerson;
    private final BusinessProfile business;

    TodayController(FirstPage firstPage, HealthWords words, CurrentPerson currentPerson, BusinessProfile business) {
        this.firstPage = firstPage;
        this.words = words;
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
        List<FollowupView> deadly = overview.followups().stream()
                .filter(matter -> matter.urgency() == Urgency.DEADLY)
                .toList();
        List<FollowupView> matters = overview.followups().stream()
                .filter(matter -> matter.urgency() != Urgency.DEADLY)
                .toList();
        Set<UUID> told = deadly.stream().map(FollowupView::subjectId).collect(Collectors.toSet());
        List<SystemHealth> endangered = review.needed().stream()
                .filter(SystemHealth::endangered)
                .filter(line -> !told.contains(line.facts().id().value()))
                .toList();
        List<SystemHealth> others =
                review.needed().stream().filter(line -> !line.endangered()).toList();
        Map<UUID, HealthWords.DoubtedLine> doubted = words.doubted(review.instruments(), locale).stream()
                .collect(Collectors.toMap(
                        line -> line.instrument().value(), line -> line, (one, other) -> one, LinkedHashMap::new));
        Map<FollowupId, HealthWords.DoubtedLine> ofMatters = new HashMap<>();
        for (FollowupView matter : matters) {
            Optional.ofNullable(doubted.remove(matter.subjectId())).ifPresent(line -> ofMatters.put(matter.id(), line));
        }
        model.addAttribute("overview", overview);
        model.addAttribute("review", review);
        model.addAttribute("deadly", deadly);
        model.addAttribute("endangered", words.lines(endangered, 1, locale));
        model.addAttribute("matters", matters);
        model.addAttribute("doubtedBy", ofMatters);
        model.addAttribute("doubted", doubted.values());
        model.addAttribute(
                "lines", words.lines(others.stream().limit(MOST_LINES).toList(), endangered.size() + 1, locale));
        model.addAttribute("moreLines", Math.max(0, others.size() - MOST_LINES));
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
}
