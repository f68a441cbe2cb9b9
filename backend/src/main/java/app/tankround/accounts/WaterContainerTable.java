package app.tankround.accounts;

import app.tankround.persistence.Uuids;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** {@code water-containers.csv}: each belongs to a van or, where that is empty, to the pool of a depot. */
@Component
class WaterContainerTable implements CsvTable {

    private final ContainerRegister register;
    private final Fleet fleet;
    private final Clock clock;

    WaterContainerTable(ContainerRegister register, Fleet fleet, Clock clock) {
        this.register = register;
        this.fleet = fleet;
        this.clock = clock;
    }

    @Override
    public String name() {
        return "water-containers";
    }

    @Override
    public int order() {
        return 45;
    }

    @Override
    public List<String> columns() {
        return List.of("number", "van", "depot", "role", "size_l", "empty_kg", "pumped", "stands_cm", "out_of_use");
    }

    @Override
    public Stream<List<String>> rows() {
        return register.all().stream()
                .map(container -> List.of(
                        container.number(),
                        container.van().flatMap(fleet::find).map(VanView::code).orElse(""),
                        container
                                .depot()
                                .flatMap(fleet::find)
                                .map(DepotView::code)
                                .orElse(""),
                        container.role().name(),
                        plain(container.size().litres()),
                        plain(container.empty().kilograms()),
                        Boolean.toString(container.pumped()),
                        plain(container.standsCm()),
                        Boolean.toString(container.outOfUse())));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        Optional<VanId> van = row.text("van")
                .map(code -> fleet.vanByCode(code)
                        .map(VanView::id)
                        .orElseThrow(() -> new CsvRefusal("van", "csv.reference-unknown", code)));
        Optional<DepotId> depot = row.text("depot")
                .map(code -> fleet.depotByCode(code)
                        .map(DepotView::id)
                        .orElseThrow(() -> new CsvRefusal("depot", "csv.reference-unknown", code)));
        if (van.isPresent() == depot.isPresent()) {
            throw new CsvRefusal("van", "accounts.container.place-unknown");
        }
        Optional<WaterContainerView> stored = register.findByNumber(row.required("number"));
        var wanted = new WaterContainerView(
                stored.map(WaterContainerView::id).orElseGet(() -> WaterContainerId.of(Uuids.next(clock.instant()))),
                row.required("number"),
                van,
                depot,
                row.requiredChoice("role", ContainerRole.class),
                Volume.ofLitres(notNegative(row, "size_l")),
                Mass.ofKilograms(notNegative(row, "empty_kg")),
                row.flag("pumped"),
                notNegative(row, "stands_cm"),
                row.flag("out_of_use"),
                stored.map(WaterContainerView::version).orElse(0));
        if (stored.isPresent() && stored.get().equals(wanted)) {
            return CsvOutcome.UNCHANGED;
        }
        register.save(wanted);
        return stored.isPresent() ? CsvOutcome.CHANGED : CsvOutcome.CREATED;
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
