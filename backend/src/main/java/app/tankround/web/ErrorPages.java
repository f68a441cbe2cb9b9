package app.tankround.web;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;

/** What a person sees when a page cannot be had: what happened, what is safe, what to do. */
@ControllerAdvice(annotations = Controller.class)
// The API is made of controllers too: its own answers come first.
@Order(Ordered.HIGHEST_PRECEDENCE + 1)
class ErrorPages {

    /** One thing that differs between the version saved meanwhile and the one just typed. */
    public record Difference(String name, String theirs, String yours, boolean same) {}

    private static final Logger LOG = LoggerFactory.getLogger(ErrorPages.class);

    @ExceptionHandler({NotFound.class, MethodArgumentTypeMismatchException.class})
    @ResponseStatus(HttpStatus.NOT_FOUND)
    String notFound() {
        return "error/404";
    }

    @ExceptionHandler(StaleVersion.class)
    @ResponseStatus(HttpStatus.CONFLICT)
    String stale(StaleVersion stale, Model model) {
        model.addAttribute("page", stale.page());
        model.addAttribute("differences", differences(stale.theirs(), stale.yours()));
        return "error/409";
    }

    /** A refusal that no form took, such as a button pressed twice with something gone meanwhile. */
    @ExceptionHandler(FieldRefusal.class)
    @ResponseStatus(HttpStatus.UNPROCESSABLE_CONTENT)
    String refused(FieldRefusal refusal, Model model) {
        LOG.info("refused: {} {}", refusal.field(), refusal.code());
        model.addAttribute("refusalCode", refusal.code());
        model.addAttribute("refusalArgs", refusal.args().toArray());
        return "error/422";
    }

    /** Two people at the same moment, or a choice that is gone meanwhile: the database let only one of them through. */
    @ExceptionHandler(DataIntegrityViolationException.class)
    @ResponseStatus(HttpStatus.CONFLICT)
    String doesNotFit(DataIntegrityViolationException refusal) {
        LOG.warn("refused by the database", refusal);
        return "error/422";
    }

    private static Iterable<Difference> differences(@Nullable Object theirs, @Nullable Object yours) {
        Map<String, String> saved = parts(theirs);
        Map<String, String> typed = parts(yours);
        var names = new LinkedHashMap<>(saved);
        names.putAll(typed);
        return names.keySet().stream()
                .filter(name -> !name.equals("version") && !name.equals("id"))
                .map(name -> {
                    String left = saved.getOrDefault(name, "");
                    String right = typed.getOrDefault(name, "");
                    return new Difference(name, left, right, left.equals(right));
                })
                .toList();
    }

    private static Map<String, String> parts(@Nullable Object version) {
        var parts = new LinkedHashMap<String, String>();
        if (version instanceof Record) {
            for (var component : version.getClass().getRecordComponents()) {
                try {
                    var accessor = component.getAccessor();
                    accessor.setAccessible(true);
                    parts.put(component.getName(), shown(accessor.invoke(version)));
                } catch (ReflectiveOperationException hidden) {
                    throw new IllegalStateException(hidden);
                }
            }
        } else if (version instanceof Map<?, ?> map) {
            map.forEach((name, value) -> parts.put(String.valueOf(name), shown(value)));
        }
        return parts;
    }

    private static String shown(@Nullable Object value) {
        if (value instanceof Optional<?> optional) {
            return optional.map(String::valueOf).orElse("");
        }
        if (value instanceof Record && value.getClass().getRecordComponents().length == 1) {
            return parts(value).values().iterator().next();
        }
        return value == null ? "" : value.toString();
    }
}
