package app.tankround.clients;

import app.tankround.accounts.CsvCell;
import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.persistence.Uuids;
import java.math.BigDecimal;
import java.time.Clock;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** {@code sites.csv}; a row without a client is one of the business's own depots, of the same code and name. */
@Component
class SiteTable implements CsvTable {

    private final Sites sites;
    private final Clients clients;
    private final SiteService service;
    private final Clock clock;

    SiteTable(Sites sites, Clients clients, SiteService service, Clock clock) {
        this.sites = sites;
        this.clients = clients;
        this.service = service;
        this.clock = clock;
    }

    @Override
    public String name() {
        return "sites";
    }

    @Override
    public int order() {
        return 30;
    }

    @Override
    public List<String> columns() {
        return List.of(
                "code",
                "client",
                "name",
                "street",
                "postal_code",
                "locality",
                "latitude",
                "longitude",
                "access_notes",
                "attended_from",
                "attended_until",
                "own_tap",
                "own_drain",
                "own_ro_di",
                "mixing_barrel",
                "refill_litres");
    }

    @Override
    public Set<String> laterColumns() {
        return Set.of("refill_litres");
    }

    @Override
    public Stream<List<String>> rows() {
        Map<ClientId, String> codes = clients.findAll().stream()
                .collect(Collectors.toMap(Client::id, client -> client.details().code()));
        return sites.findAll().stream()
                .map(Site::details)
                .sorted(Comparator.comparing(SiteDetails::code))
                .map(site -> List.of(
                        site.code(),
                        CsvCell.of(site.clientId() == null ? null : codes.get(site.clientId())),
                        site.name(),
                        CsvCell.of(site.street()),
                        CsvCell.of(site.postalCode()),
                        CsvCell.of(site.locality()),
                        CsvCell.of(site.latitude()),
                        CsvCell.of(site.longitude()),
                        CsvCell.of(site.accessNotes()),
                        CsvCell.of(site.attendedFrom()),
                        CsvCell.of(site.attendedUntil()),
                        CsvCell.of(site.ownTap()),
                        CsvCell.of(site.ownDrain()),
                        CsvCell.of(site.ownRoDi()),
                        CsvCell.of(site.mixingBarrel()),
                        CsvCell.of(site.refillLitres())));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        return CsvCell.atColumn(() -> {
            var details = new SiteDetails(
                    row.required("code"),
                    row.text("client")
                            .map(code -> clients.findByCode(code)
                                    .map(Client::id)
                                    .orElseThrow(() -> new CsvRefusal("client", "csv.reference-unknown", code)))
                            .orElse(null),
                    row.required("name"),
                    row.text("street").orElse(null),
                    row.text("postal_code").orElse(null),
                    row.text("locality").orElse(null),
                    row.number("latitude").map(BigDecimal::doubleValue).orElse(null),
                    row.number("longitude").map(BigDecimal::doubleValue).orElse(null),
                    row.text("access_notes").orElse(null),
                    row.time("attended_from").orElse(null),
                    row.time("attended_until").orElse(null),
                    row.flag("own_tap"),
                    row.flag("own_drain"),
                    row.flag("own_ro_di"),
                    row.flag("mixing_barrel"),
                    row.number("refill_litres").map(BigDecimal::doubleValue).orElse(null));
            Optional<Site> stored = sites.findByCode(details.code());
            if (stored.isEmpty()) {
                service.add(new NewSite(SiteId.of(Uuids.next(clock.instant())), details));
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
