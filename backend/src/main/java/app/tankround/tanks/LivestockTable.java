package app.tankround.tanks;

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

/** {@code livestock.csv}; it states what is there and restarts no quarantine, whose day stands in {@code systems.csv}. */
@Component
class LivestockTable implements CsvTable {

    private final LivestockRepository livestock;
    private final WaterSystems service;
    private final SystemCodes codes;
    private final Clock clock;

    LivestockTable(LivestockRepository livestock, WaterSystems service, SystemCodes codes, Clock clock) {
        this.livestock = livestock;
        this.service = service;
        this.codes = codes;
        this.clock = clock;
    }

    @Override
    public String name() {
        return "livestock";
    }

    @Override
    public int order() {
        return 80;
    }

    @Override
    public List<String> columns() {
        return List.of("code", "system", "common_name", "scientific_name", "quantity", "added_on", "will_be_eaten");
    }

    @Override
    public Stream<List<String>> rows() {
        var systems = codes.all();
        return livestock.findAll().stream()
                .map(Livestock::details)
                .sorted(Comparator.comparing(LivestockDetails::code))
                .map(animals -> List.of(
                        animals.code(),
                        CsvCell.of(systems.get(animals.systemId())),
                        animals.commonName(),
                        CsvCell.of(animals.scientificName()),
                        CsvCell.of(animals.quantity()),
                        CsvCell.of(animals.addedOn()),
                        CsvCell.of(animals.willBeEaten())));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        return CsvCell.atColumn(() -> {
            var details = new LivestockDetails(
                    row.required("code"),
                    codes.required(row),
                    row.required("common_name"),
                    row.text("scientific_name").orElse(null),
                    row.requiredWhole("quantity"),
                    row.date("added_on").orElse(null),
                    row.flag("will_be_eaten"));
            Optional<Livestock> stored = livestock.findByCode(details.code());
            if (stored.isEmpty()) {
                service.importLivestock(LivestockId.of(Uuids.next(clock.instant())), details);
                return CsvOutcome.CREATED;
            }
            if (stored.get().details().equals(details)) {
                return CsvOutcome.UNCHANGED;
            }
            service.changeLivestock(stored.get().id(), stored.get().version(), details);
            return CsvOutcome.CHANGED;
        });
    }
}
