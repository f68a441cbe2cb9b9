package app.tankround.instruments;

import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonView;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.TemperatureCompensation;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** {@code instruments.csv} */
@Component
class InstrumentTable implements CsvTable {

    private static final Map<String, String> COLUMN_OF_FIELD = Map.ofEntries(
            Map.entry("gravityReference", "gravity_reference"),
            Map.entry("permittedError", "permitted_error"),
            Map.entry("checkIntervalDays", "check_interval_days"),
            Map.entry("expiresOn", "expires_on"),
            Map.entry("purchasedOn", "purchased_on"),
            Map.entry("retiredOn", "retired_on"),
            Map.entry("rangeLow", "range_low"),
            Map.entry("rangeHigh", "range_high"),
            Map.entry("shakeSeconds", "shake_seconds"),
            Map.entry("waitSeconds", "wait_seconds"),
            Map.entry("readWithinSeconds", "read_within_seconds"));

    private final InstrumentRegister register;
    private final People people;

    InstrumentTable(InstrumentRegister register, People people) {
        this.register = register;
        this.people = people;
    }

    @Override
    public String name() {
        return "instruments";
    }

    @Override
    public int order() {
        return 100;
    }

    @Override
    public List<String> columns() {
        return List.of(
                "code",
                "name",
                "kind",
                "quantity",
                "unit",
                "gravity_reference",
                "graduation",
                "resolution",
                "permitted_error",
                "check_interval_days",
                "lot",
                "expires_on",
                "purchased_on",
                "retired_on",
                "holder",
                "compensation",
                "range_low",
                "range_high",
                "shake_seconds",
                "wait_seconds",
                "read_within_seconds");
    }

    @Override
    public Set<String> laterColumns() {
        return Set.of(
                "compensation", "range_low", "range_high", "shake_seconds", "wait_seconds", "read_within_seconds");
    }

    @Override
    public Stream<List<String>> rows() {
        return register.all().stream()
                .sorted(Comparator.comparing(InstrumentView::code))
                .map(this::fields);
    }

    private List<String> fields(InstrumentView instrument) {
        return List.of(
                instrument.code(),
                instrument.name(),
                instrument.kind().name(),
                instrument.quantity().name(),
                instrument.unit().code(),
                instrument.gravityReference().orElse(""),
                instrument.graduation().map(Enum::name).orElse(""),
                plain(instrument.resolution()),
                plain(instrument.permittedError()),
                Integer.toString(instrument.checkIntervalDays()),
                instrument.lot().orElse(""),
                instrument.expiresOn().map(Object::toString).orElse(""),
                instrument.purchasedOn().map(Object::toString).orElse(""),
                instrument.retiredOn().map(Object::toString).orElse(""),
                instrument
                        .holder()
                        .flatMap(people::find)
                        .map(PersonView::signInName)
                        .orElse(""),
                instrument.compensation().map(Enum::name).orElse(""),
                instrument.rangeLow().map(InstrumentTable::plain).orElse(""),
                instrument.rangeHigh().map(InstrumentTable::plain).orElse(""),
                seconds(instrument.times().shakeSeconds()),
                seconds(instrument.times().waitSeconds()),
                seconds(instrument.times().readWithinSeconds()));
    }

    private static String seconds(@Nullable Integer seconds) {
        return seconds == null ? "" : seconds.toString();
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        Optional<InstrumentView> stored = register.findByCode(row.required("code"));
        NewInstrument stated = stated(row);
        // Compared as written to the file, where 0.0010 and 0.001 are the same.
        if (stored.filter(same -> fields(same)
                        .equals(fields(Instrument.of(same.id(), stated, 0).view())))
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
            throw atColumn(refusal, COLUMN_OF_FIELD);
        }
    }

    private NewInstrument stated(CsvRow row) {
        Quantity quantity = row.requiredChoice("quantity", Quantity.class);
        return new NewInstrument(
                row.required("code"),
                row.required("name"),
                row.text("kind").filter(InstrumentKind.KIT_OF_OLD::equals).isPresent()
                        ? InstrumentKind.usualKit(quantity)
                        : row.requiredChoice("kind", InstrumentKind.class),
                quantity,
                unit(row, "unit"),
                row.text("gravity_reference"),
                row.choice("graduation", Graduation.class),
                row.choice("compensation", TemperatureCompensation.class),
                row.requiredNumber("resolution"),
                row.number("range_low"),
                row.number("range_high"),
                row.requiredNumber("permitted_error"),
                row.requiredWhole("check_interval_days"),
                new KitTimes(
                        row.whole("shake_seconds").orElse(null),
                        row.whole("wait_seconds").orElse(null),
                        row.whole("read_within_seconds").orElse(null)),
                row.text("lot"),
                row.date("expires_on"),
                row.date("purchased_on"),
                row.date("retired_on"),
                row.text("holder").map(name -> people.keep(name, "holder")));
    }

    static MeasurementUnit unit(CsvRow row, String column) {
        String code = row.required(column);
        return MeasurementUnit.ofCode(code)
                .orElseThrow(() -> new CsvRefusal(
                        column,
                        "csv.choice-unknown",
                        code,
                        Stream.of(MeasurementUnit.values())
                                .map(MeasurementUnit::code)
                                .toList()));
    }

    static CsvRefusal atColumn(FieldRefusal refusal, Map<String, String> columnOfField) {
        String field =
                refusal.field().substring(refusal.field().lastIndexOf('.') + 1).replaceAll("\\[\\d+]", "");
        return new CsvRefusal(
                columnOfField.getOrDefault(field, field),
                refusal.code(),
                refusal.args().toArray());
    }

    static String plain(BigDecimal number) {
        return number.stripTrailingZeros().toPlainString();
    }
}
