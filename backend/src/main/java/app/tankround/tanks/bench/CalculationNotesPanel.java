package app.tankround.tanks.bench;

import app.tankround.accounts.Days;
import app.tankround.chemistry.calculator.Calculator;
import app.tankround.chemistry.calculator.Calculators;
import app.tankround.chemistry.calculator.Input;
import app.tankround.tanks.SystemPanel;
import app.tankround.tanks.WaterSystemView;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The calculations that people kept with a system, on its own page. */
@Component
class CalculationNotesPanel implements SystemPanel {

    /**
     * A note in words.
     *
     * @param inputs and {@code results} each "name number unit"
     */
    record Line(
            String title,
            String on,
            String person,
            String calculator,
            List<String> inputs,
            List<String> results,
            List<String> working,
            String source) {}

    private final CalculationNotes notes;
    private final BenchWords words;
    private final Days days;
    private final JsonMapper json;

    CalculationNotesPanel(CalculationNotes notes, BenchWords words, Days days, JsonMapper json) {
        this.notes = notes;
        this.words = words;
        this.days = days;
        this.json = json;
    }

    @Override
    public int order() {
        return 60;
    }

    @Override
    public String fragment() {
        return "tanks/bench-notes :: system";
    }

    @Override
    public Map<String, Object> model(WaterSystemView system) {
        Locale locale = LocaleContextHolder.getLocale();
        return Map.of(
                "notes",
                notes.of(system.id()).stream().map(note -> line(note, locale)).toList());
    }

    private Line line(CalculationNotes.Note note, Locale locale) {
        JsonNode answer = json.readTree(note.answer());
        JsonNode units = answer.path("units");
        List<String> working = new ArrayList<>();
        answer.path("working").forEach(each -> working.add(each.asString()));
        return new Line(
                note.title(),
                days.moment(note.notedAt(), locale),
                note.personName(),
                words.title(note.calculator(), locale),
                inputs(note, locale),
                lines(answer.path("results"), name -> units.path(name).asString(""), locale),
                working,
                answer.path("source").asString());
    }

    /** A calculator may be gone or have other inputs by now: what was written then is shown all the same. */
    private List<String> inputs(CalculationNotes.Note note, Locale locale) {
        List<Input> known =
                Calculators.named(note.calculator()).map(Calculator::inputs).orElse(List.of());
        return lines(
                json.readTree(note.inputs()),
                name -> known.stream()
                        .filter(input -> input.name().equals(name))
                        .map(Input::unit)
                        .findFirst()
                        .orElse(""),
                locale);
    }

    private List<String> lines(JsonNode values, UnaryOperator<String> unitOf, Locale locale) {
        List<String> lines = new ArrayList<>();
        values.properties().forEach(each -> {
            String unit = unitOf.apply(each.getKey());
            lines.add(words.quantity(BenchWords.quantityOf(each.getKey(), unit), locale) + " "
                    + words.result(value(each.getValue()), unit, locale));
        });
        return lines;
    }

    private static Object value(JsonNode node) {
        if (node.isNumber()) {
            return node.asDouble();
        }
        if (node.isBoolean()) {
            return node.asBoolean();
        }
        if (node.isArray()) {
            List<Object> list = new ArrayList<>();
            node.forEach(each -> list.add(value(each)));
            return list;
        }
        return node.asString("");
    }
}
