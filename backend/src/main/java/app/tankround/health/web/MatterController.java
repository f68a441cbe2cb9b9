package app.tankround.health.web;

import app.tankround.accounts.Days;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonView;
import app.tankround.followups.FollowupId;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.UnmeasuredWater;
import app.tankround.readings.VerdictWords;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** One matter that needs somebody: how it ends, and how those before it ended. */
@Controller
class MatterController {

    private static final int MOST_SETTLED = 100;
    private static final int MOST_CHOICES = 30;
    private static final int LONGEST_REASON = 500;

    /**
     * How a matter is settled: by a measurement, or by what was done, in words.
     *
     * @param reading the measurement that ended it
     * @param reason why it is settled
     */
    record SettleForm(@Nullable ReadingId reading, @Nullable String reason) {}

    /** A matter in words; the last four are empty while it is open. */
    record Line(
            FollowupView matter, String sentence, String opened, String settled, String by, String why, String page) {}

    private final Followups followups;
    private final ReadingService readings;
    private final VerdictWords verdicts;
    private final People people;
    private final Days days;
    private final MessageSource messages;

    MatterController(
            Followups followups,
            ReadingService readings,
            VerdictWords verdicts,
            People people,
            Days days,
            MessageSource messages) {
        this.followups = followups;
        this.readings = readings;
        this.verdicts = verdicts;
        this.people = people;
        this.days = days;
        this.messages = messages;
    }

    @GetMapping("/followups")
    String settled(Model model, Locale locale) {
        model.addAttribute("lines", lines(followups.settled(MOST_SETTLED), locale));
        return "health/settled";
    }

    @GetMapping("/followups/{id}")
    String matter(@PathVariable FollowupId id, @ModelAttribute("form") SettleForm form, Model model, Locale locale) {
        return page(followups.require(id), model, locale);
    }

    private String page(FollowupView matter, Model model, Locale locale) {
        model.addAttribute("line", line(matter, locale));
        model.addAttribute("endsByItself", endsByItself(matter));
        model.addAttribute(
                "ending",
                readings.ending(matter).stream()
                        .limit(MOST_CHOICES)
                        .map(reading -> new Choice(reading.id().toString(), choice(reading, locale)))
                        .toList());
        model.addAttribute(
                "before",
                lines(
                        followups.settledOf(matter.topic()).stream()
                                .filter(other -> !other.id().equals(matter.id()))
                                .toList(),
                        locale));
        return "health/matter";
    }

    @PostMapping("/followups/{id}/settle")
    String settle(
            @PathVariable FollowupId id,
            @ModelAttribute("form") SettleForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        FollowupView matter = followups.require(id);
        if (endsByItself(matter) && matter.settled().isEmpty()) {
            redirect.addFlashAttribute(
                    "flash", isUnmeasuredWater(matter) ? "health.unmeasured-open" : "health.doubt-list-open");
            return "redirect:" + matter.page();
        }
        if (matter.settled().isEmpty() && !result.hasErrors()) {
            try {
                if (settle(matter, form)) {
                    redirect.addFlashAttribute("flash", "health.settled");
                    return "redirect:/";
                }
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        FollowupView now = followups.require(id);
        if (now.settled().isPresent()) {
            response.setStatus(HttpStatus.CONFLICT.value());
            model.addAttribute(
                    "unkept", form.reason() == null ? "" : form.reason().strip());
        }
        return page(now, model, locale);
    }

    /** @return whether nobody was faster */
    private boolean settle(FollowupView matter, SettleForm form) {
        @Nullable ReadingId by = form.reading();
        if (by != null) {
            boolean ends = readings.ending(matter).stream()
                    .anyMatch(reading -> reading.id().equals(by));
            if (!ends) {
                throw new FieldRefusal("reading", "health.settle.no-such-reading");
            }
            String words = TextInput.lines("reason", form.reason(), LONGEST_REASON);
            return followups.settle(
                    matter.id(), words == null ? ReadingService.TOLD : words, Optional.of("/readings/" + by));
        }
        if (form.reason() == null || form.reason().isBlank()) {
            throw new FieldRefusal("reason", "health.settle.no-reason");
        }
        String reason = TextInput.inWords("reason", TextInput.required("reason", form.reason(), LONGEST_REASON));
        return followups.settle(matter.id(), reason, Optional.empty());
    }

    /** The matter of a doubt list ends with its last line alone. */
    private static boolean endsByItself(FollowupView matter) {
        return matter.code().equals(DoubtLists.MATTER) || isUnmeasuredWater(matter);
    }

    private static boolean isUnmeasuredWater(FollowupView matter) {
        return matter.topic().startsWith(UnmeasuredWater.MATTER);
    }

    private String choice(ReadingView reading, Locale locale) {
        return messages.getMessage(
                "health.settle.choice",
                new Object[] {
                    verdicts.quantity(reading.quantity(), locale),
                    verdicts.asWritten(reading, locale),
                    days.moment(reading.takenAt(), locale)
                },
                locale);
    }

    private List<Line> lines(List<FollowupView> matters, Locale locale) {
        return matters.stream().map(matter -> line(matter, locale)).toList();
    }

    private Line line(FollowupView matter, Locale locale) {
        Optional<FollowupView.Settled> settled = matter.settled();
        return new Line(
                matter,
                messages.getMessage(matter.code(), matter.args().toArray(), locale),
                days.moment(matter.openedAt(), locale),
                settled.map(end -> days.moment(end.at(), locale)).orElse(""),
                settled.flatMap(FollowupView.Settled::by)
                        .flatMap(people::find)
                        .map(PersonView::name)
                        .orElse(""),
                settled.map(end -> messages.getMessage(end.why(), null, end.why(), locale))
                        .orElse(""),
                settled.flatMap(FollowupView.Settled::page).orElse(""));
    }
}
