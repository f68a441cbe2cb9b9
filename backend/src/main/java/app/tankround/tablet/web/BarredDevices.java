package app.tankround.tablet.web;

import app.tankround.tablet.TabletDevices;
import java.net.URI;
import java.util.Locale;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.http.ProblemDetail;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestControllerAdvice;

/** What a barred device is answered, whatever it asks. */
@RestControllerAdvice(basePackageClasses = BarredDevices.class)
class BarredDevices {

    private final MessageSource messages;

    BarredDevices(MessageSource messages) {
        this.messages = messages;
    }

    @ExceptionHandler(TabletDevices.Barred.class)
    ProblemDetail barred(Locale locale) {
        ProblemDetail problem = ProblemDetail.forStatus(HttpStatus.FORBIDDEN);
        problem.setType(URI.create("/problems/device-barred"));
        problem.setTitle(messages.getMessage("tablet.problem.device-barred", null, locale));
        return problem;
    }
}
