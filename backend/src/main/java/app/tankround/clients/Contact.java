package app.tankround.clients;

import java.util.Optional;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Embedded;

record Contact(
        @Id ContactId id,
        @Embedded.Empty ContactDetails details,
        @Version int version) {

    Contact with(ContactDetails changed) {
        return new Contact(id, changed, version);
    }

    ContactView view() {
        return new ContactView(
                id,
                details.code(),
                details.clientId(),
                details.name(),
                Optional.ofNullable(details.role()),
                Optional.ofNullable(details.phone()),
                Optional.ofNullable(details.email()),
                details.receivesReports(),
                version);
    }
}
