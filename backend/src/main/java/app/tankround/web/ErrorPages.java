package app.tankround.web;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.dao.DataAccessException;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.dao.OptimisticLockingFailureException;
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
        model.addAttribute("differences", FormDifference.between(stale.theirs(), stale.yours()));
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
    @ExceptionHandler({DataIntegrityViolationException.class, OptimisticLockingFailureException.class})
    @ResponseStatus(HttpStatus.CONFLICT)
    String doesNotFit(DataAccessException refusal) {
        LOG.warn("refused by the database", refusal);
        return "error/422";
    }
}
