package app.tankround.health.web;

import app.tankround.health.ConcernKind;
import app.tankround.health.HealthReview;
import app.tankround.health.HealthWords;
import app.tankround.health.SystemHealth;
import app.tankround.instruments.InstrumentId;
import app.tankround.web.Choice;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** Every system that needs somebody, worst first. */
@Controller
class HealthController {

    private final HealthReview health;
    private final HealthWords words;
    private final MessageSource messages;

    HealthController(HealthReview health, HealthWords words, MessageSource messages) {
        this.health = health;
        this.words = words;
        this.messages = messages;
    }

    @GetMapping("/health")
    String health(
            @RequestParam(required = false) @Nullable ConcernKind kind,
            @RequestParam(required = false) @Nullable String text,
            @RequestParam(required = false) @Nullable InstrumentId instrument,
            Model model,
            Locale locale) {
        HealthReview.Review review = health.review();
        String wanted = text == null ? "" : text.strip();
        boolean all = kind == null && wanted.isEmpty() && instrument == null;
        List<SystemHealth> shown = (all ? review.needed() : review.ranked())
                .stream()
                        .filter(line -> line.worst().isPresent())
                        .filter(line -> instrument == null || isDoubted(line, instrument))
                        .filter(line ->
                                kind == null || line.concerns().stream().anyMatch(concern -> concern.kind() == kind))
                        .filter(line -> matches(line, wanted, locale))
                        .toList();
        model.addAttribute("review", review);
        model.addAttribute("lines", words.lines(shown, 1, locale));
        model.addAttribute("doubted", all ? words.doubted(review.instruments(), locale) : List.of());
        model.addAttribute("kinds", kinds(locale));
        model.addAttribute("kind", kind == null ? "" : kind.name());
        model.addAttribute("text", wanted);
        model.addAttribute("words", words);
        model.addAttribute("locale", locale);
        return "health/health";
    }

    private static boolean isDoubted(SystemHealth line, InstrumentId instrument) {
        return line.concerns().stream()
                .anyMatch(concern ->
                        concern.instrument().filter(instrument::equals).isPresent());
    }

    private boolean matches(SystemHealth line, String text, Locale locale) {
        String title = words.title(line.facts(), locale) + " " + line.facts().code();
        return title.toLowerCase(locale).contains(text.toLowerCase(locale));
    }

    private List<Choice> kinds(Locale locale) {
        List<Choice> kinds = new ArrayList<>();
        kinds.add(new Choice("", messages.getMessage("web.all", null, locale)));
        Arrays.stream(ConcernKind.values())
                .map(kind -> new Choice(kind.name(), messages.getMessage("health.kind." + kind, null, locale)))
                .forEach(kinds::add);
        return kinds;
    }
}
