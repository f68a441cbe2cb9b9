package app.tankround.clients;

import java.util.Optional;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Embedded;

record Client(
        @Id ClientId id,
        @Embedded.Empty ClientDetails details,
        @Version int version) {

    Client with(ClientDetails changed) {
        return new Client(id, changed, version);
    }

    ClientView view() {
        return new ClientView(
                id,
                details.code(),
                details.name(),
                Optional.ofNullable(details.billingAddress()),
                Optional.ofNullable(details.email()),
                Optional.ofNullable(details.phone()),
                Optional.ofNullable(details.notes()),
                version);
    }
}
