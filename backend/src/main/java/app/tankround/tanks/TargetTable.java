package app.tankround.tanks;

import app.tankround.accounts.CsvCell;
import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** {@code targets.csv}; a limit of {@code degF} is kept in {@code degC}. */
@Component
class TargetTable implements CsvTable {

    private final WaterSystemRepository systems;
    private final WaterSystems service;
    private final SystemCodes codes;

    TargetTable(WaterSystemRepository systems, WaterSystems service, SystemCodes codes) {
        this.systems = systems;
        this.service = service;
        this.codes = codes;
    }

    @Override
    public String name() {
        return "targets";
    }

    @Override
    public int order() {
        return 90;
    }

    @Override
    public List<String> columns() {
        return List.of("system", "quantity", "low", "high", "unit", "gravity_reference");
    }

    @Override
    public Stream<List<String>> rows() {
        return systems.findAll().stream()
                .sorted(Comparator.comparing(system -> system.details().code()))
                .flatMap(system -> system.targets().stream()
                        .sorted(Comparator.comparing(TargetRange::quantity))
                        .map(target -> List.of(
                                system.details().code(),
                                CsvCell.of(target.quantity()),
                                CsvCell.of(target.low()),
                                CsvCell.of(target.high()),
                                target.unit().code(),
                                CsvCell.of(target.gravityReference()))));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        return CsvCell.atColumn(() -> {
            WaterSystemId system = codes.required(row);
            String unit = row.required("unit");
            var target = new TargetRange(
                    row.requiredChoice("quantity", Quantity.class),
                    row.number("low").orElse(null),
                    row.number("high").orElse(null),
                    MeasurementUnit.ofCode(unit)
                            .orElseThrow(() -> new CsvRefusal("unit", "csv.reference-unknown", unit)),
                    row.text("gravity_reference").orElse(null));
            List<TargetRange> stored = service.ranges(system);
            if (stored.contains(target)) {
                return CsvOutcome.UNCHANGED;
            }
            service.setTarget(system, target);
            return stored.stream().anyMatch(other -> other.quantity() == target.quantity())
                    ? CsvOutcome.CHANGED
                    : CsvOutcome.CREATED;
        });
    }
}
