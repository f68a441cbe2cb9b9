package app.tankround.clients.web;

import app.tankround.clients.ClientId;
import app.tankround.clients.ContactDetails;
import app.tankround.clients.ContactId;
import app.tankround.clients.ContactView;
import app.tankround.web.FormReader;
import app.tankround.web.VersionedForm;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** @param id made when the form is shown, so that sending it twice adds once */
record ContactForm(
        String id,
        int version,
        @Nullable String code,
        @Nullable String name,
        @Nullable String role,
        @Nullable String phone,
        @Nullable String email,
        @Nullable Boolean receivesReports)
        implements VersionedForm<ContactForm> {

    /** A box that is not ticked is not sent. */
    ContactForm {
        receivesReports = Boolean.TRUE.equals(receivesReports);
    }

    static ContactForm blank(ContactId id, String code) {
        return new ContactForm(id.toString(), 0, code, null, null, null, null, false);
    }

    static ContactForm of(ContactView contact) {
        return new ContactForm(
                contact.id().toString(),
                contact.version(),
                contact.code(),
                contact.name(),
                contact.role().orElse(null),
                contact.phone().orElse(null),
                contact.email().orElse(null),
                contact.receivesReports());
    }

    @Override
    public ContactForm withVersion(int newest) {
        return new ContactForm(id, newest, code, name, role, phone, email, receivesReports);
    }

    Optional<ContactDetails> toCommand(ClientId clientId, FormReader reader) {
        return reader.read(() -> new ContactDetails(
                Objects.requireNonNullElse(code, ""),
                clientId,
                Objects.requireNonNullElse(name, ""),
                role,
                phone,
                email,
                Boolean.TRUE.equals(receivesReports)));
    }
}
