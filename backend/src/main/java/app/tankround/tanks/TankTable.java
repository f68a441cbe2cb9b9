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

/** {@code tanks.csv} */
@Component
class TankTable implements CsvTable {

    private final Tanks tanks;
    private final WaterSystems service;
    private final SystemCodes codes;
    private final Clock clock;

    TankTable(Tanks tanks, WaterSystems service, SystemCodes codes, Clock clock) {
        this.tanks = tanks;
        this.service = service;
        this.codes = codes;
        this.clock = clock;
    }

    @Override
    public String name() {
        return "tanks";
    }

    @Override
    public int order() {
        return 60;
    }

    @Override
    public List<String> columns() {
        return List.of("code", "system", "name", "material", "volume_l");
    }

    @Override
    public Stream<List<String>> rows() {
        var systems = codes.all();
        return tanks.findAll().stream()
                .map(Tank::details)
                .sorted(Comparator.comparing(TankDetails::code))
                .map(tank -> List.of(
                        tank.code(),
                        CsvCell.of(systems.get(tank.systemId())),
                        tank.name(),
                        CsvCell.of(tank.material()),
                        CsvCell.of(tank.volume())));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        return CsvCell.atColumn(() -> {
            var details = new TankDetails(
                    row.required("code"),
                    codes.required(row),
                    row.required("name"),
                    row.requiredChoice("material", TankMaterial.class),
                    row.number("volume_l")
                            .map(number ->
                                    NetVolume.within("volume_l", number.doubleValue(), NetVolume.SMALLEST_LITRES))
                            .orElse(null));
            Optional<Tank> stored = tanks.findByCode(details.code());
            if (stored.isEmpty()) {
                service.addTank(new NewTank(TankId.of(Uuids.next(clock.instant())), details));
                return CsvOutcome.CREATED;
            }
            if (stored.get().details().equals(details)) {
                return CsvOutcome.UNCHANGED;
            }
            service.changeTank(stored.get().id(), stored.get().version(), details);
            return CsvOutcome.CHANGED;
        });
    }
}
