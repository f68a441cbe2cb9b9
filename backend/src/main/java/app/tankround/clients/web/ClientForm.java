package app.tankround.clients.web;

import app.tankround.clients.ClientDetails;
import app.tankround.clients.ClientId;
import app.tankround.clients.ClientView;
import app.tankround.web.FormReader;
import app.tankround.web.VersionedForm;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** @param id made when the form is shown, so that sending it twice adds once */
record ClientForm(
        String id,
        int version,
        @Nullable String code,
        @Nullable String name,
        @Nullable String billingAddress,
        @Nullable String email,
        @Nullable String phone,
        @Nullable String notes)
        implements VersionedForm<ClientForm> {

    static ClientForm blank(ClientId id, String code) {
        return new ClientForm(id.toString(), 0, code, null, null, null, null, null);
    }

    static ClientForm of(ClientView client) {
        return new ClientForm(
                client.id().toString(),
                client.version(),
                client.code(),
                client.name(),
                client.billingAddress().orElse(null),
                client.email().orElse(null),
                client.phone().orElse(null),
                client.notes().orElse(null));
    }

    @Override
    public ClientForm withVersion(int newest) {
        return new ClientForm(id, newest, code, name, billingAddress, email, phone, notes);
    }

    Optional<ClientDetails> toCommand(FormReader reader) {
        return reader.read(() -> new ClientDetails(
                Objects.requireNonNullElse(code, ""),
                Objects.requireNonNullElse(name, ""),
                billingAddress,
                email,
                phone,
                notes));
    }
}
