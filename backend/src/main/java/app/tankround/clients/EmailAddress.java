package app.tankround.clients;

import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Reads an e-mail address; whether somebody reads it is only known once a mail has arrived, so the check is coarse. */
final class EmailAddress {

    /** Longest address that a mail server must take (RFC 5321, 4.5.3.1.3: 256 with the angle brackets). */
    private static final int LONGEST = 254;

    private static final Pattern COARSE = Pattern.compile("[^@\\s]+@[^@\\s]+");

    private EmailAddress() {}

    static @Nullable String optional(String field, @Nullable String text) {
        String read = TextInput.optional(field, text, LONGEST);
        if (read != null && !COARSE.matcher(read).matches()) {
            throw new FieldRefusal(field, "clients.email-malformed", read);
        }
        return read;
    }
}
