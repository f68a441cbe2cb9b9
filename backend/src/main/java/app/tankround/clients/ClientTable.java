package app.tankround.clients;

import app.tankround.accounts.CsvCell;
import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.persistence.Uuids;
import java.time.Clock;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** {@code clients.csv} */
@Component
class ClientTable implements CsvTable {

    private final Clients clients;
    private final ClientService service;
    private final Clock clock;

    ClientTable(Clients clients, ClientService service, Clock clock) {
        this.clients = clients;
        this.service = service;
        this.clock = clock;
    }

    @Override
    public String name() {
        return "clients";
    }

    @Override
    public int order() {
        return 10;
    }

    @Override
    public List<String> columns() {
        return List.of("code", "name", "billing_address", "email", "phone", "notes");
    }

    @Override
    public Stream<List<String>> rows() {
        return clients.findAll().stream()
                .map(Client::details)
                .sorted(Comparator.comparing(ClientDetails::code))
                .map(client -> List.of(
                        client.code(),
                        client.name(),
                        CsvCell.of(client.billingAddress()),
                        CsvCell.of(client.email()),
                        CsvCell.of(client.phone()),
                        CsvCell.of(client.notes())));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        return CsvCell.atColumn(() -> {
            var details = new ClientDetails(
                    row.required("code"),
                    row.required("name"),
                    row.text("billing_address").orElse(null),
                    row.text("email").orElse(null),
                    row.text("phone").orElse(null),
                    row.text("notes").orElse(null));
            Optional<Client> stored = clients.findByCode(details.code());
            if (stored.isEmpty()) {
                service.add(new NewClient(ClientId.of(Uuids.next(clock.instant())), details));
                return CsvOutcome.CREATED;
            }
            if (stored.get().details().equals(details)) {
                return CsvOutcome.UNCHANGED;
            }
            service.change(stored.get().id(), stored.get().version(), details);
            return CsvOutcome.CHANGED;
        });
    }
}
