package app.tankround.clients;

import app.tankround.web.TextInput;
import org.jspecify.annotations.Nullable;

/**
 * What is written down about a person to talk to.
 *
 * @param code short and unique among contacts, 1 to 40 characters
 * @param role what the person does there, in the client's words
 * @param receivesReports whether service reports are mailed to this person
 */
public record ContactDetails(
        String code,
        ClientId clientId,
        String name,
        @Nullable String role,
        @Nullable String phone,
        @Nullable String email,
        boolean receivesReports) {

    /** @throws app.tankround.web.FieldRefusal naming the field, the refused value and what is accepted */
    public ContactDetails {
        code = TextInput.required("code", code, 40);
        name = TextInput.required("name", name, 200);
        role = TextInput.optional("role", role, 200);
        phone = TextInput.optional("phone", phone, 60);
        email = EmailAddress.optional("email", email);
    }
}
