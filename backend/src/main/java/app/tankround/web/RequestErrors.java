package app.tankround.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.net.URI;
import java.util.Locale;
import org.springframework.beans.InvalidPropertyException;
import org.springframework.context.MessageSource;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.http.converter.HttpMessageNotReadableException;
import org.springframework.security.web.firewall.RequestRejectedException;
import org.springframework.web.ErrorResponse;
import org.springframework.web.HttpMediaTypeNotAcceptableException;
import org.springframework.web.HttpMediaTypeNotSupportedException;
import org.springframework.web.HttpRequestMethodNotSupportedException;
import org.springframework.web.bind.ServletRequestBindingException;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.multipart.MaxUploadSizeExceededException;
import org.springframework.web.multipart.MultipartException;
import org.springframework.web.multipart.support.MissingServletRequestPartException;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.resource.NoResourceFoundException;

/** Requests that no page and no part of the API takes: a page for people, problem details under {@code /api/}. */
@ControllerAdvice
@Order(Ordered.HIGHEST_PRECEDENCE)
class RequestErrors {

    private final MessageSource messages;

    RequestErrors(MessageSource messages) {
        this.messages = messages;
    }

    @ExceptionHandler({
        NoResourceFoundException.class,
        HttpRequestMethodNotSupportedException.class,
        HttpMediaTypeNotSupportedException.class,
        HttpMediaTypeNotAcceptableException.class,
        HttpMessageNotReadableException.class,
        ServletRequestBindingException.class,
        MissingServletRequestPartException.class,
        MaxUploadSizeExceededException.class,
        MultipartException.class,
        RequestRejectedException.class,
        TamperedRequest.class,
        // A place in something that is no list.
        InvalidPropertyException.class
    })
    Object refused(Exception refusal, HttpServletRequest request, HttpServletResponse response, Locale locale) {
        HttpStatusCode status = statusOf(refusal);
        String type = typeOf(status);
        // RFC 9110, 15.5.6: an answer of 405 names the methods that there are, in Allow.
        if (refusal instanceof ErrorResponse said) {
            said.getHeaders().forEach((name, values) -> values.forEach(value -> response.addHeader(name, value)));
        }
        if (request.getRequestURI().startsWith(request.getContextPath() + "/api/")) {
            ProblemDetail problem = ProblemDetail.forStatus(status);
            problem.setType(URI.create("/problems/" + type));
            problem.setTitle(messages.getMessage("web.problem." + type, null, type, locale));
            return ResponseEntity.status(status)
                    .contentType(MediaType.APPLICATION_PROBLEM_JSON)
                    .body(problem);
        }
        var page = new ModelAndView(status.value() == HttpStatus.NOT_FOUND.value() ? "error/404" : "error/request");
        page.setStatus(status);
        page.addObject("problem", type);
        return page;
    }

    private static HttpStatusCode statusOf(Exception refusal) {
        if (refusal instanceof MaxUploadSizeExceededException) {
            return HttpStatus.CONTENT_TOO_LARGE;
        }
        return refusal instanceof ErrorResponse response ? response.getStatusCode() : HttpStatus.BAD_REQUEST;
    }

    private static String typeOf(HttpStatusCode status) {
        return switch (status.value()) {
            case 404 -> "not-found";
            case 405 -> "method-not-allowed";
            case 406 -> "not-acceptable";
            case 413 -> "too-large";
            case 415 -> "unsupported-media-type";
            default -> "malformed-request";
        };
    }
}
