package app.tankround.web;

/** A part of a form that the program wrote itself came back as something else; no field can show that to a person. */
final class TamperedRequest extends RuntimeException {

    private static final long serialVersionUID = 1L;

    TamperedRequest(String part) {
        super(part + " is not what the form was made with");
    }
}
