package app.tankround.instruments;

import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** {@code standards.csv} */
@Component
class StandardTable implements CsvTable {

    private static final Map<String, String> COLUMN_OF_FIELD = Map.of(
            "valueTemperature", "value_temperature_c",
            "openedOn", "opened_on",
            "expiresOn", "expires_on",
            "openDays", "open_days",
            "suspiciousSince", "suspicious_since",
            "suspiciousBecause", "suspicious_because");

    private final StandardRegister register;

    StandardTable(StandardRegister register) {
        this.register = register;
    }

    @Override
    public String name() {
        return "standards";
    }

    @Override
    public int order() {
        return 110;
    }

    @Override
    public List<String> columns() {
        return List.of(
                "code",
                "name",
                "quantity",
                "value",
                "unit",
                "uncertainty",
                "value_temperature_c",
                "lot",
                "opened_on",
                "expires_on",
                "kind",
                "open_days",
                "suspicious_since",
                "suspicious_because");
    }

    @Override
    public Set<String> laterColumns() {
        return Set.of("kind", "open_days", "suspicious_since", "suspicious_because");
    }

    @Override
    public Stream<List<String>> rows() {
        return register.all().stream()
                .sorted(Comparator.comparing(StandardView::code))
                .map(StandardTable::fields);
    }

    private static List<String> fields(StandardView standard) {
        return List.of(
                standard.code(),
                standard.name(),
                standard.quantity().name(),
                InstrumentTable.plain(standard.value()),
                standard.unit().code(),
                InstrumentTable.plain(standard.uncertainty()),
                standard.valueTemperature().map(InstrumentTable::plain).orElse(""),
                standard.lot().orElse(""),
                standard.openedOn().map(Object::toString).orElse(""),
                standard.expiresOn().map(Object::toString).orElse(""),
                standard.kind().name(),
                standard.openDays().map(Object::toString).orElse(""),
                standard.suspiciousSince().map(Object::toString).orElse(""),
                standard.suspiciousBecause().orElse(""));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        Quantity quantity = row.requiredChoice("quantity", Quantity.class);
        BigDecimal value = row.requiredNumber("value");
        NewStandard stated = new NewStandard(
                row.required("code"),
                row.required("name"),
                row.choice("kind", StandardKind.class).orElseGet(() -> StandardKind.usual(quantity, value)),
                quantity,
                value,
                InstrumentTable.unit(row, "unit"),
                row.requiredNumber("uncertainty"),
                row.number("value_temperature_c"),
                row.text("lot"),
                row.date("opened_on"),
                row.date("expires_on"),
                row.whole("open_days"),
                row.date("suspicious_since"),
                row.text("suspicious_because"));
        Optional<StandardView> stored = register.findByCode(stated.code());
        // Compared as written to the file, where 35.0 and 35 are the same.
        if (stored.filter(same -> fields(same)
                        .equals(fields(Standard.of(same.id(), stated, 0).view())))
                .isPresent()) {
            return CsvOutcome.UNCHANGED;
        }
        try {
            if (stored.isPresent()) {
                register.change(stored.get().id(), stored.get().version(), stated);
                return CsvOutcome.CHANGED;
            }
            register.add(stated);
            return CsvOutcome.CREATED;
        } catch (FieldRefusal refusal) {
            throw InstrumentTable.atColumn(refusal, COLUMN_OF_FIELD);
        }
    }
}
