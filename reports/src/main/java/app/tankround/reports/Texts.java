package app.tankround.reports;

/** Checks that every record of this module makes. */
public final class Texts {

    private Texts() {}

    /**
     * @param what name of the text in the message
     * @return the text
     * @throws IllegalArgumentException if the text is blank
     */
    public static String requireText(String what, String text) {
        if (text.isBlank()) {
            throw new IllegalArgumentException("The " + what + " must not be blank");
        }
        return text;
    }
}
