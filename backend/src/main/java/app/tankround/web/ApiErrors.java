package app.tankround.web;

import java.net.URI;
import java.util.List;
import java.util.Locale;
import org.springframework.context.MessageSource;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpStatus;
import org.springframework.http.ProblemDetail;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.bind.annotation.RestControllerAdvice;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;

/** Refusals of the API as problem details (RFC 9457); field errors stand in {@code errors}. */
@RestControllerAdvice(annotations = RestController.class)
@Order(Ordered.HIGHEST_PRECEDENCE)
class ApiErrors {

    /** One refused field. */
    public record FieldProblem(String field, String code, String message) {}

    private final MessageSource messages;

    ApiErrors(MessageSource messages) {
        this.messages = messages;
    }

    @ExceptionHandler({NotFound.class, MethodArgumentTypeMismatchException.class})
    ProblemDetail notFound(Locale locale) {
        return problem(HttpStatus.NOT_FOUND, "not-found", locale);
    }

    @ExceptionHandler(StaleVersion.class)
    ProblemDetail stale(StaleVersion stale, Locale locale) {
        ProblemDetail problem = problem(HttpStatus.CONFLICT, "stale-version", locale);
        problem.setProperty("theirs", stale.theirs());
        problem.setProperty("yours", stale.yours());
        return problem;
    }

    @ExceptionHandler(FieldRefusal.class)
    ProblemDetail refused(FieldRefusal refusal, Locale locale) {
        ProblemDetail problem = problem(HttpStatus.UNPROCESSABLE_CONTENT, "refused", locale);
        String words = messages.getMessage(refusal.code(), refusal.args().toArray(), refusal.code(), locale);
        problem.setProperty(
                "errors", List.of(new FieldProblem(refusal.field(), refusal.code(), String.valueOf(words))));
        return problem;
    }

    private ProblemDetail problem(HttpStatus status, String type, Locale locale) {
        ProblemDetail problem = ProblemDetail.forStatus(status);
        problem.setType(URI.create("/problems/" + type));
        problem.setTitle(messages.getMessage("web.problem." + type, null, type, locale));
        return problem;
    }
}
