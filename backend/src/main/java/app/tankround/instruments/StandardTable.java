package app.tankround.instruments;

import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.chemistry.PhBuffer;
import app.tankround.chemistry.WeighedSolution.Solute;
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

    /** Columns of the first files. */
    private static final List<String> FIRST = List.of(
            "code",
            "name",
            "quantity",
            "value",
            "unit",
            "uncertainty",
            "value_temperature_c",
            "lot",
            "opened_on",
            "expires_on");

    /** Columns that were added since. */
    private static final List<String> LATER = List.of(
            "kind",
            "open_days",
            "suspicious_since",
            "suspicious_because",
            "buffer",
            "recipe_solute",
            "recipe_solute_g",
            "recipe_purity_percent",
            "recipe_purity_give_or_take",
            "recipe_water_g",
            "recipe_balance",
            "recipe_water_balance",
            "recipe_made_on");

    private final StandardRegister register;
    private final StandardRecipes recipes;
    private final InstrumentRegister instruments;

    StandardTable(StandardRegister register, StandardRecipes recipes, InstrumentRegister instruments) {
        this.register = register;
        this.recipes = recipes;
        this.instruments = instruments;
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
        return Stream.concat(FIRST.stream(), LATER.stream()).toList();
    }

    @Override
    public Set<String> laterColumns() {
        return Set.copyOf(LATER);
    }

    @Override
    public Stream<List<String>> rows() {
        Map<StandardId, StandardRecipe> made = recipes.all();
        return register.all().stream()
                .sorted(Comparator.comparing(StandardView::code))
                .map(standard -> fields(standard, Optional.ofNullable(made.get(standard.id()))));
    }

    private List<String> fields(StandardView standard, Optional<StandardRecipe> recipe) {
        return Stream.concat(fields(standard).stream(), fields(recipe).stream()).toList();
    }

    private List<String> fields(Optional<StandardRecipe> recipe) {
        return List.of(
                recipe.map(made -> made.solute().name()).orElse(""),
                recipe.map(StandardRecipe::soluteGrams)
                        .map(InstrumentTable::plain)
                        .orElse(""),
                recipe.map(StandardRecipe::purityPercent)
                        .map(InstrumentTable::plain)
                        .orElse(""),
                recipe.map(StandardRecipe::purityGiveOrTake)
                        .map(InstrumentTable::plain)
                        .orElse(""),
                recipe.map(StandardRecipe::waterGrams)
                        .map(InstrumentTable::plain)
                        .orElse(""),
                recipe.map(made -> instruments.require(made.balance()).code()).orElse(""),
                recipe.flatMap(StandardRecipe::waterBalance)
                        .map(id -> instruments.require(id).code())
                        .orElse(""),
                recipe.map(made -> made.madeOn().toString()).orElse(""));
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
                standard.suspiciousBecause().orElse(""),
                standard.buffer().map(Enum::name).orElse(""));
    }

    private Optional<StandardRecipe> recipe(CsvRow row) {
        return row.choice("recipe_solute", Solute.class)
                .map(solute -> new StandardRecipe(
                        solute,
                        row.requiredNumber("recipe_solute_g"),
                        row.requiredNumber("recipe_purity_percent"),
                        row.requiredNumber("recipe_purity_give_or_take"),
                        row.requiredNumber("recipe_water_g"),
                        balance("recipe_balance", row.required("recipe_balance")),
                        row.text("recipe_water_balance").map(code -> balance("recipe_water_balance", code)),
                        row.requiredDate("recipe_made_on")));
    }

    private InstrumentId balance(String column, String code) {
        return instruments
                .findByCode(code)
                .orElseThrow(() -> new CsvRefusal(column, "csv.reference-unknown", code))
                .id();
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
                row.choice("buffer", PhBuffer.class),
                row.text("lot"),
                row.date("opened_on"),
                row.date("expires_on"),
                row.whole("open_days"),
                row.date("suspicious_since"),
                row.text("suspicious_because"));
        Optional<StandardRecipe> recipe = recipe(row);
        Optional<StandardView> stored = register.findByCode(stated.code());
        Optional<StandardRecipe> known = stored.flatMap(same -> recipes.find(same.id()));
        if (stored.isPresent() && !fields(known).equals(fields(recipe))) {
            throw new CsvRefusal("recipe_solute", "instruments.recipe-never-changed", stated.code());
        }
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
            StandardId id = register.add(stated);
            recipe.ifPresent(made -> recipes.insert(id, made));
            return CsvOutcome.CREATED;
        } catch (FieldRefusal refusal) {
            throw InstrumentTable.atColumn(refusal, COLUMN_OF_FIELD);
        }
    }
}
