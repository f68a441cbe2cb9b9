package app.tankround.accounts;

import app.tankround.persistence.Uuids;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** {@code vans.csv} */
@Component
class VanTable implements CsvTable {

    private final Fleet fleet;
    private final People people;
    private final Clock clock;

    VanTable(Fleet fleet, People people, Clock clock) {
        this.fleet = fleet;
        this.people = people;
        this.clock = clock;
    }

    @Override
    public String name() {
        return "vans";
    }

    @Override
    public int order() {
        return 40;
    }

    @Override
    public List<String> columns() {
        return List.of(
                "code",
                "name",
                "depot",
                "payload_kg",
                "fixed_load_kg",
                "room_l",
                "drum_l",
                "drum_empty_kg",
                "technician",
                "leaves_at",
                "floor_cm");
    }

    @Override
    public Set<String> laterColumns() {
        return Set.of("room_l", "floor_cm");
    }

    @Override
    public Stream<List<String>> rows() {
        return fleet.vans().stream()
                .map(van -> List.of(
                        van.code(),
                        van.name(),
                        fleet.find(van.depotId()).map(DepotView::code).orElseThrow(),
                        plain(van.payload().kilograms()),
                        plain(van.fixedLoad().kilograms()),
                        van.room().map(room -> plain(room.litres())).orElse(""),
                        plain(van.drum().litres()),
                        plain(van.drumEmpty().kilograms()),
                        van.technician()
                                .flatMap(people::find)
                                .map(PersonView::signInName)
                                .orElse(""),
                        van.leavesAt().toString(),
                        van.floorCm().map(VanTable::plain).orElse("")));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        String code = row.required("code");
        String depotCode = row.required("depot");
        DepotView depot = fleet.depotByCode(depotCode)
                .orElseThrow(() -> new CsvRefusal("depot", "csv.reference-unknown", depotCode));
        Optional<PersonId> technician = row.text("technician").map(name -> people.keep(name, "technician"));
        LocalTime leavesAt = row.time("leaves_at").orElseThrow(() -> new CsvRefusal("leaves_at", "csv.field-missing"));
        Optional<VanView> stored = fleet.vanByCode(code);
        var wanted = new VanView(
                stored.map(VanView::id).orElseGet(() -> VanId.of(Uuids.next(clock.instant()))),
                code,
                row.required("name"),
                depot.id(),
                mass(row, "payload_kg"),
                mass(row, "fixed_load_kg"),
                row.text("room_l").map(given -> Volume.ofLitres(notNegative(row, "room_l"))),
                Volume.ofLitres(notNegative(row, "drum_l")),
                mass(row, "drum_empty_kg"),
                row.text("floor_cm").map(given -> notNegative(row, "floor_cm")),
                technician,
                leavesAt,
                stored.map(VanView::version).orElse(0));
        if (stored.isPresent() && stored.get().equals(wanted)) {
            return CsvOutcome.UNCHANGED;
        }
        fleet.save(wanted);
        return stored.isPresent() ? CsvOutcome.CHANGED : CsvOutcome.CREATED;
    }

    private static Mass mass(CsvRow row, String column) {
        return Mass.ofKilograms(notNegative(row, column));
    }

    private static double notNegative(CsvRow row, String column) {
        BigDecimal number = row.requiredNumber(column);
        if (number.signum() < 0) {
            throw new CsvRefusal(column, "csv.number-negative", number.toPlainString());
        }
        return number.doubleValue();
    }

    private static String plain(double number) {
        return BigDecimal.valueOf(number).stripTrailingZeros().toPlainString();
    }
}
