package app.tankround.tanks.bench;

import app.tankround.chemistry.calculator.Answer;
import app.tankround.chemistry.calculator.AnswerJson;
import app.tankround.web.LimitedBody;
import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Optional;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

/** Calculators for other programs, and for checking them. */
@RestController
class CalculationsController {

    /** Room for several series of the longest kind. */
    static final int MOST_BYTES = 200_000;

    private final MessageSource messages;

    CalculationsController(MessageSource messages) {
        this.messages = messages;
    }

    /** Each calculator with its inputs (name, unit, range, default), outputs and source. */
    @GetMapping("/api/calculations")
    ResponseEntity<byte[]> list() {
        return json(HttpStatus.OK.value(), MediaType.APPLICATION_JSON, Answer.list());
    }

    /** 200 with the calculation, 404 without such a calculator, 400 with {@code errors}, 422 with {@code code} and {@code range}. */
    @PostMapping(path = "/api/calculations/{name}", consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<?> calculate(@PathVariable String name, HttpServletRequest request, Locale locale)
            throws IOException {
        Optional<byte[]> inputs = LimitedBody.read(request, MOST_BYTES);
        if (inputs.isEmpty()) {
            ProblemDetail problem = ProblemDetail.forStatus(HttpStatus.CONTENT_TOO_LARGE);
            problem.setType(URI.create("/problems/too-large"));
            problem.setTitle(messages.getMessage("web.problem.too-large", null, locale));
            return ResponseEntity.status(HttpStatus.CONTENT_TOO_LARGE).body(problem);
        }
        Answer answer = AnswerJson.answer(name, inputs.get());
        boolean answered = answer.outcome() == Answer.Outcome.ANSWERED;
        return json(
                answer.outcome().httpStatus(),
                answered ? MediaType.APPLICATION_JSON : MediaType.APPLICATION_PROBLEM_JSON,
                answer.body());
    }

    private static ResponseEntity<byte[]> json(int status, MediaType type, Object body) {
        return ResponseEntity.status(status)
                .contentType(type)
                .body(AnswerJson.write(body).getBytes(StandardCharsets.UTF_8));
    }
}
