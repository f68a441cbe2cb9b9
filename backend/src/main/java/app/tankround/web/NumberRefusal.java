package app.tankround.web;

/** A text that is no number, or more than one. The code is a message key; the only argument is the text as typed. */
public class NumberRefusal extends IllegalArgumentException {

    private static final long serialVersionUID = 1L;

    private final String code;
    private final String typed;

    public NumberRefusal(String code, String typed) {
        super(code + ": " + typed);
        this.code = code;
        this.typed = typed;
    }

    public String code() {
        return code;
    }

    public String typed() {
        return typed;
    }
}
