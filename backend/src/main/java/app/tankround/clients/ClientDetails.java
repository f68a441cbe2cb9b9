package app.tankround.clients;

import app.tankround.web.TextInput;
import org.jspecify.annotations.Nullable;

/**
 * What is written down about a client.
 *
 * @param code short and unique among clients, 1 to 40 characters
 * @param name 1 to 200 characters
 * @param billingAddress several lines, up to 1000 characters
 * @param notes several lines, up to 10,000 characters
 */
public record ClientDetails(
        String code,
        String name,
        @Nullable String billingAddress,
        @Nullable String email,
        @Nullable String phone,
        @Nullable String notes) {

    /** @throws app.tankround.web.FieldRefusal naming the field, the refused value and what is accepted */
    public ClientDetails {
        code = TextInput.required("code", code, 40);
        name = TextInput.required("name", name, 200);
        billingAddress = TextInput.lines("billingAddress", billingAddress, 1000);
        email = EmailAddress.optional("email", email);
        phone = TextInput.optional("phone", phone, 60);
        notes = TextInput.lines("notes", notes, 10_000);
    }
}
