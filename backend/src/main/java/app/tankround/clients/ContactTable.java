package app.tankround.clients;

import app.tankround.accounts.CsvCell;
import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.persistence.Uuids;
import java.time.Clock;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** {@code contacts.csv} */
@Component
class ContactTable implements CsvTable {

    private final Contacts contacts;
    private final Clients clients;
    private final ClientService service;
    private final Clock clock;

    ContactTable(Contacts contacts, Clients clients, ClientService service, Clock clock) {
        this.contacts = contacts;
        this.clients = clients;
        this.service = service;
        this.clock = clock;
    }

    @Override
    public String name() {
        return "contacts";
    }

    @Override
    public int order() {
        return 20;
    }

    @Override
    public List<String> columns() {
        return List.of("code", "client", "name", "role", "phone", "email", "receives_reports");
    }

    @Override
    public Stream<List<String>> rows() {
        Map<ClientId, String> codes = clients.findAll().stream()
                .collect(Collectors.toMap(Client::id, client -> client.details().code()));
        return contacts.findAll().stream()
                .map(Contact::details)
                .sorted(Comparator.comparing(ContactDetails::code))
                .map(contact -> List.of(
                        contact.code(),
                        CsvCell.of(codes.get(contact.clientId())),
                        contact.name(),
                        CsvCell.of(contact.role()),
                        CsvCell.of(contact.phone()),
                        CsvCell.of(contact.email()),
                        CsvCell.of(contact.receivesReports())));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        return CsvCell.atColumn(() -> {
            String client = row.required("client");
            var details = new ContactDetails(
                    row.required("code"),
                    clients.findByCode(client)
                            .map(Client::id)
                            .orElseThrow(() -> new CsvRefusal("client", "csv.reference-unknown", client)),
                    row.required("name"),
                    row.text("role").orElse(null),
                    row.text("phone").orElse(null),
                    row.text("email").orElse(null),
                    row.flag("receives_reports"));
            Optional<Contact> stored = contacts.findByCode(details.code());
            if (stored.isEmpty()) {
                service.addContact(new NewContact(ContactId.of(Uuids.next(clock.instant())), details));
                return CsvOutcome.CREATED;
            }
            if (stored.get().details().equals(details)) {
                return CsvOutcome.UNCHANGED;
            }
            service.changeContact(stored.get().id(), stored.get().version(), details);
            return CsvOutcome.CHANGED;
        });
    }
}
