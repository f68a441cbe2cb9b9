package app.tankround.web;

import java.util.UUID;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.PropertyAccessException;
import org.springframework.beans.TypeMismatchException;
import org.springframework.beans.propertyeditors.StringTrimmerEditor;
import org.springframework.stereotype.Controller;
import org.springframework.validation.BindingResult;
import org.springframework.validation.DefaultBindingErrorProcessor;
import org.springframework.validation.FieldError;
import org.springframework.web.bind.WebDataBinder;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.InitBinder;
import org.springframework.web.context.request.WebRequest;

/** Puts the reason of a refused number or date at its field, with what was typed. */
@ControllerAdvice(annotations = Controller.class)
class BindingAdvice {

    /** Places in lists that a form of the program can have; what is asked for beyond would be made up to there. */
    private static final Pattern PLACE = Pattern.compile("\\[([^]]*)]");

    /** The inputs of a calculator go by their names. */
    private static final Pattern NAMED = Pattern.compile("values\\[[a-z0-9_]+]");

    private static final Pattern NUMBER = Pattern.compile("\\d{1,3}");

    private static final int PLACES = 256;

    @InitBinder("form")
    void refuseStrangePlaces(WebRequest request) {
        request.getParameterNames().forEachRemaining(BindingAdvice::refuseStrangePlace);
    }

    @InitBinder
    void prepare(WebDataBinder binder) {
        binder.registerCustomEditor(String.class, new StringTrimmerEditor(true));
        TypedText.readBy(binder);
        binder.setBindingErrorProcessor(new DefaultBindingErrorProcessor() {
            @Override
            public void processPropertyAccessException(PropertyAccessException refused, BindingResult result) {
                NumberRefusal reason = reasonOf(refused);
                String field = refused.getPropertyName();
                if (field == null) {
                    super.processPropertyAccessException(refused, result);
                    return;
                }
                if (isWrittenByTheProgram(field, refused)) {
                    throw new TamperedRequest(field);
                }
                if (reason == null) {
                    result.addError(nameRefusedValue(refused, field, result));
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

            /** As Spring has it, but with the text as typed for {1} of the messages {@code typeMismatch…}. */
            private FieldError nameRefusedValue(PropertyAccessException refused, String field, BindingResult result) {
                Object typed = refused.getValue();
                return new FieldError(
                        result.getObjectName(),
                        field,
                        typed,
                        true,
                        result.resolveMessageCodes(refused.getErrorCode(), field),
                        new Object[] {
                            getArgumentsForBindError(result.getObjectName(), field)[0],
                            typed == null ? "" : typed.toString()
                        },
                        refused.getLocalizedMessage());
            }
        });
    }

    private static void refuseStrangePlace(String parameter) {
        boolean strange = !NAMED.matcher(parameter).matches()
                && PLACE.matcher(parameter)
                        .results()
                        .map(place -> place.group(1))
                        .anyMatch(place -> !NUMBER.matcher(place).matches() || Integer.parseInt(place) >= PLACES);
        if (strange) {
            throw new TamperedRequest(parameter);
        }
    }

    /** Versions, ticks and ids stand in a page as the program wrote them; only numbers, dates and times are typed. */
    private static boolean isWrittenByTheProgram(String field, PropertyAccessException refused) {
        if (field.equals("version") || field.endsWith(".version")) {
            return true;
        }
        Class<?> wanted = refused instanceof TypeMismatchException mismatch ? mismatch.getRequiredType() : null;
        return wanted != null && (wanted == boolean.class || wanted == Boolean.class || isId(wanted));
    }

    private static boolean isId(Class<?> type) {
        var components = type.getRecordComponents();
        return type == UUID.class
                || (components != null && components.length == 1 && components[0].getType() == UUID.class);
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
