package app.tankround.web;

import java.util.List;
import org.springframework.validation.BindingResult;

/**
 * A value that the business's rules do not take, with the field it stands in. The code is a message key; by habit the
 * first argument is the refused value and the next two are the accepted range.
 */
public class FieldRefusal extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final String field;
    private final String code;
    private final transient List<Object> args;

    public FieldRefusal(String field, String code, Object... args) {
        super(field + ": " + code);
        this.field = field;
        this.code = code;
        this.args = List.of(args);
    }

    public String field() {
        return field;
    }

    public String code() {
        return code;
    }

    public List<Object> args() {
        return args;
    }

    /** Shows this refusal at its field of the form, or above the form where it has no such field. */
    public void into(BindingResult result) {
        boolean known = result.getTarget() != null
                && result.getPropertyEditorRegistry() != null
                && !field.isEmpty()
                && isFieldOf(result);
        if (known) {
            result.rejectValue(field, code, args.toArray(), code);
        } else {
            result.reject(code, args.toArray(), code);
        }
    }

    private boolean isFieldOf(BindingResult result) {
        try {
            result.getFieldValue(field);
            return true;
        } catch (RuntimeException unknownField) {
            return false;
        }
    }
}
