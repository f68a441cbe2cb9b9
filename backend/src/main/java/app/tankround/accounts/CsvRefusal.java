package app.tankround.accounts;

import app.tankround.web.FieldRefusal;

/** A field of a CSV row that cannot be taken; the field is the column's name. */
public final class CsvRefusal extends FieldRefusal {

    private static final long serialVersionUID = 1L;

    public CsvRefusal(String column, String code, Object... args) {
        super(column, code, args);
    }
}
