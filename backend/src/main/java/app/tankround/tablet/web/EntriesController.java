package app.tankround.tablet.web;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonView;
import app.tankround.tablet.EntryAnswers;
import app.tankround.tablet.EntryAnswers.Malformed;
import app.tankround.web.LimitedBody;
import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.net.URI;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

/** Where tablet and office hand entries in. */
@RestController
class EntriesController {

    /** The most that one request may bring. */
    static final int MOST_BYTES = 1_000_000;

    static final int MOST_ENTRIES = 200;

    private final EntryAnswers answers;
    private final CurrentPerson currentPerson;
    private final MessageSource messages;

    EntriesController(EntryAnswers answers, CurrentPerson currentPerson, MessageSource messages) {
        this.answers = answers;
        this.currentPerson = currentPerson;
        this.messages = messages;
    }

    /** Answers each entry in order; 400 if the envelope is malformed, 413 beyond 200 entries or 1 MB. */
    @PostMapping("/api/entries")
    ResponseEntity<?> take(HttpServletRequest request, Locale locale) throws IOException {
        Optional<byte[]> sent = LimitedBody.read(request, MOST_BYTES);
        if (sent.isEmpty()) {
            return problem(HttpStatus.CONTENT_TOO_LARGE, "entries-too-large", locale, List.of());
        }
        PersonView person = currentPerson.require();
        try {
            return ResponseEntity.ok(answers.take(sent.get(), person.id(), browserOf(request), MOST_ENTRIES));
        } catch (Malformed malformed) {
            if (malformed.tooMany()) {
                return problem(HttpStatus.CONTENT_TOO_LARGE, "entries-too-many", locale, List.of());
            }
            Map<String, String> error = new LinkedHashMap<>();
            error.put("field", malformed.field());
            error.put("code", "tablet.envelope." + malformed.reason());
            error.put(
                    "message",
                    String.valueOf(messages.getMessage("tablet.envelope." + malformed.reason(), null, locale)));
            return problem(HttpStatus.BAD_REQUEST, "entries-malformed", locale, List.of(error));
        }
    }

    static String browserOf(HttpServletRequest request) {
        return Objects.requireNonNullElse(request.getHeader(HttpHeaders.USER_AGENT), "");
    }

    private ResponseEntity<ProblemDetail> problem(
            HttpStatus status, String type, Locale locale, List<Map<String, String>> errors) {
        ProblemDetail problem = ProblemDetail.forStatus(status);
        problem.setType(URI.create("/problems/" + type));
        problem.setTitle(messages.getMessage("tablet.problem." + type, null, locale));
        if (!errors.isEmpty()) {
            problem.setProperty("errors", errors);
        }
        return ResponseEntity.status(status).body(problem);
    }
}
