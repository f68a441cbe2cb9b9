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

/** {@code equipment.csv} */
@Component
class EquipmentTable implements CsvTable {

    private final EquipmentRepository equipment;
    private final WaterSystems service;
    private final SystemCodes codes;
    private final Clock clock;

    EquipmentTable(EquipmentRepository equipment, WaterSystems service, SystemCodes codes, Clock clock) {
        this.equipment = equipment;
        this.service = service;
        this.codes = codes;
        this.clock = clock;
    }

    @Override
    public String name() {
        return "equipment";
    }

    @Override
    public int order() {
        return 70;
    }

    @Override
    public List<String> columns() {
        return List.of("code", "system", "kind", "name", "installed_on", "notes");
    }

    @Override
    public Stream<List<String>> rows() {
        var systems = codes.all();
        return equipment.findAll().stream()
                .map(Equipment::details)
                .sorted(Comparator.comparing(EquipmentDetails::code))
                .map(device -> List.of(
                        device.code(),
                        CsvCell.of(systems.get(device.systemId())),
                        device.kind(),
                        device.name(),
                        CsvCell.of(device.installedOn()),
                        CsvCell.of(device.notes())));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        return CsvCell.atColumn(() -> {
            var details = new EquipmentDetails(
                    row.required("code"),
                    codes.required(row),
                    row.required("kind"),
                    row.required("name"),
                    row.date("installed_on").orElse(null),
                    row.text("notes").orElse(null));
            Optional<Equipment> stored = equipment.findByCode(details.code());
            if (stored.isEmpty()) {
                service.addEquipment(new NewEquipment(EquipmentId.of(Uuids.next(clock.instant())), details));
                return CsvOutcome.CREATED;
            }
            if (stored.get().details().equals(details)) {
                return CsvOutcome.UNCHANGED;
            }
            service.changeEquipment(stored.get().id(), stored.get().version(), details);
            return CsvOutcome.CHANGED;
        });
    }
}
