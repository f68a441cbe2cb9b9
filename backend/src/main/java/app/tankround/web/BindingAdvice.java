package app.tankround.web;

import org.jspecify.annotations.Nullable;
import org.springframework.beans.PropertyAccessException;
import org.springframework.beans.propertyeditors.StringTrimmerEditor;
import org.springframework.stereotype.Controller;
import org.springframework.validation.BindingResult;
import org.springframework.validation.DefaultBindingErrorProcessor;
import org.springframework.validation.FieldError;
import org.springframework.web.bind.WebDataBinder;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.InitBinder;

/** Puts the reason of a refused number or date at its field, with what was typed. */
@ControllerAdvice(annotations = Controller.class)
class BindingAdvice {

    @InitBinder
    void prepare(WebDataBinder binder) {
        binder.registerCustomEditor(String.class, new StringTrimmerEditor(true));
        binder.setBindingErrorProcessor(new DefaultBindingErrorProcessor() {
            @Override
            public void processPropertyAccessException(PropertyAccessException refused, BindingResult result) {
                NumberRefusal reason = reasonOf(refused);
                String field = refused.getPropertyName();
                if (reason == null || field == null) {
                    super.processPropertyAccessException(refused, result);
                    return;
                }
                result.addError(new FieldError(
                        result.getObjectName(),
                        field,
                        refused.getValue(),
                        true,
                        new String[] {"web." + reason.code()},
                        new Object[] {reason.typed()},
                        reason.code()));
            }
        });
    }

    private static @Nullable NumberRefusal reasonOf(Throwable refused) {
        for (Throwable cause = refused; cause != null; cause = cause.getCause()) {
            if (cause instanceof NumberRefusal reason) {
                return reason;
            }
        }
        return null;
    }
}
