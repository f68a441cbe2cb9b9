package app.tankround.tanks.bench;

import app.tankround.chemistry.calculator.Calculation;
import app.tankround.chemistry.calculator.CalculationRefused;
import app.tankround.chemistry.calculator.Calculator;
import app.tankround.chemistry.calculator.Calculators;
import app.tankround.chemistry.calculator.Input;
import app.tankround.chemistry.calculator.InputErrors;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.WaterSystemLine;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.NotFound;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Calculators for people: choose what is known and what is wanted, see the result with its working and source. */
@Controller
class BenchController {

    /** One calculator in the list. */
    record Line(String name, String title, String takes, String gives) {}

    record Group(String title, List<Line> lines) {}

    /** What can be known or wanted, of one group of calculators. */
    record Quantities(String title, List<Choice> choices) {}

    /**
     * One field of a calculator.
     *
     * @param path in the form
     * @param none words of the choice of nothing, where there is one
     */
    record Field(
            String path,
            String kind,
            String label,
            String unit,
            String hint,
            boolean optional,
            @Nullable String none,
            List<Choice> choices) {}

    record Result(String label, String value) {}

    /** What the form asks for, read and worked out. */
    private record Worked(Map<String, Object> inputs, Calculation calculation) {}

    /** The output by which a calculator warns; its words stand above the result. */
    private static final String CAUTION = "caution";

    /** What nobody chooses a calculator for. */
    private static final Set<String> ASIDE = Set.of(CAUTION, "temperature_scale", "extrapolated");

    private static final Pattern BETWEEN_NUMBERS = Pattern.compile("[\\s;]+");

    private final WaterSystems systems;
    private final CalculationNotes notes;
    private final BenchWords words;
    private final Clock clock;

    BenchController(WaterSystems systems, CalculationNotes notes, BenchWords words, Clock clock) {
        this.systems = systems;
        this.notes = notes;
        this.words = words;
        this.clock = clock;
    }

    @GetMapping("/bench")
    String list(
            @RequestParam(required = false) @Nullable String known,
            @RequestParam(required = false) @Nullable String wanted,
            Model model,
            Locale locale) {
        String has = Objects.requireNonNullElse(known, "");
        String wants = Objects.requireNonNullElse(wanted, "");
        model.addAttribute("known", has);
        model.addAttribute("wanted", wants);
        model.addAttribute("takes", quantities(BenchWords::takes, locale));
        model.addAttribute("gives", quantities(BenchWords::gives, locale));
        model.addAttribute(
                "groups",
                Calculators.groups().stream()
                        .map(group -> new Group(
                                words.group(group, locale),
                                group.calculators().stream()
                                        .filter(each -> has.isEmpty()
                                                || BenchWords.takes(each).contains(has))
                                        .filter(each -> wants.isEmpty()
                                                || BenchWords.gives(each).contains(wants))
                                        .map(each -> line(each, locale))
                                        .toList()))
                        .filter(group -> !group.lines().isEmpty())
                        .toList());
        return "tanks/bench";
    }

    @GetMapping("/bench/{name}")
    String blank(@PathVariable String name, Model model, Locale locale) {
        Calculator calculator = require(name);
        var form = new BenchForm();
        for (Input input : calculator.inputs()) {
            if (input.defaultValue() instanceof Double number) {
                double shown = words.unit(input.unit()).shown().applyAsDouble(number);
                form.getValues().put(input.name(), words.number(shown, locale));
            } else if (input.defaultValue() != null) {
                form.getValues().put(input.name(), input.defaultValue().toString());
            }
        }
        model.addAttribute("form", form);
        return page(calculator, model, locale);
    }

    /** Nothing is kept, so the page comes back at once; a long series does not fit into an address. */
    @PostMapping("/bench/{name}")
    String calculate(
            @PathVariable String name,
            @ModelAttribute("form") BenchForm form,
            BindingResult result,
            Model model,
            Locale locale) {
        Calculator calculator = require(name);
        work(calculator, form, result, locale)
                .ifPresent(worked -> showResults(calculator, form, worked.calculation(), model, locale));
        return page(calculator, model, locale);
    }

    @PostMapping("/bench/{name}/notes")
    String keep(
            @PathVariable String name,
            @ModelAttribute("form") BenchForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        Calculator calculator = require(name);
        var id = FormReader.madeWith("calculation-note", form.getNoteId());
        Optional<Worked> worked = work(calculator, form, result, locale);
        if (worked.isPresent()) {
            Optional<WaterSystemView> system = systems.findByCode(Objects.requireNonNullElse(form.getSystem(), ""));
            if (system.isPresent()) {
                try {
                    notes.keep(
                            id,
                            system.get().id(),
                            form.getTitle(),
                            calculator,
                            worked.get().inputs(),
                            worked.get().calculation());
                    redirect.addFlashAttribute("flash", "bench.note.kept");
                    return "redirect:/systems/" + system.get().id();
                } catch (FieldRefusal refusal) {
                    refusal.into(result);
                }
            } else {
                new FieldRefusal("system", "bench.note.system-needed").into(result);
            }
            showResults(calculator, form, worked.get().calculation(), model, locale);
        }
        return page(calculator, model, locale);
    }

    private static Calculator require(String name) {
        return Calculators.named(name).orElseThrow(() -> new NotFound("calculator", name));
    }

    /** Each quantity once, in the first group of calculators that has it. */
    private List<Quantities> quantities(Function<Calculator, List<String>> of, Locale locale) {
        Set<String> listed = new HashSet<>(ASIDE);
        return Calculators.groups().stream()
                .map(group -> new Quantities(
                        words.group(group, locale),
                        group.calculators().stream()
                                .flatMap(each -> of.apply(each).stream())
                                .filter(listed::add)
                                .map(name -> new Choice(name, words.quantity(name, locale)))
                                .sorted(Comparator.comparing(Choice::text, String.CASE_INSENSITIVE_ORDER))
                                .toList()))
                .filter(group -> !group.choices().isEmpty())
                .toList();
    }

    private Line line(Calculator calculator, Locale locale) {
        return new Line(
                calculator.name(),
                words.title(calculator.name(), locale),
                listed(BenchWords.takes(calculator).stream(), locale),
                listed(BenchWords.gives(calculator).stream(), locale));
    }

    private String listed(Stream<String> quantities, Locale locale) {
        return quantities
                .filter(each -> !ASIDE.contains(each))
                .map(each -> words.quantity(each, locale))
                .distinct()
                .collect(Collectors.joining(", "));
    }

    private String page(Calculator calculator, Model model, Locale locale) {
        model.addAttribute("name", calculator.name());
        model.addAttribute("title", words.title(calculator.name(), locale));
        model.addAttribute("source", calculator.source());
        model.addAttribute(
                "fields",
                calculator.inputs().stream().map(input -> field(input, locale)).toList());
        return "tanks/bench-calculator";
    }

    private Field field(Input input, Locale locale) {
        String hint = switch (input.kind()) {
            case CHOICE -> "";
            case NUMBER -> words.range(input, locale);
            case SERIES ->
                words.word("bench.series.hint", locale, input.fewest(), input.most(), words.range(input, locale));
        };
        return new Field(
                path(input),
                input.kind().name(),
                words.label(input, locale),
                words.unit(input.unit()).text(),
                hint,
                !input.required() && input.defaultValue() == null,
                input.defaultValue() == null ? words.word("web.choose", locale) : null,
                input.choices().stream()
                        .map(choice -> new Choice(choice, words.choice(input, choice, locale)))
                        .toList());
    }

    private void showResults(
            Calculator calculator, BenchForm form, Calculation calculation, Model model, Locale locale) {
        if (form.getNoteId() == null) {
            form.setNoteId(Uuids.next(clock.instant()).toString());
        }
        model.addAttribute(
                "results",
                calculator.outputs().stream()
                        .filter(output -> calculation.results().containsKey(output.name()))
                        .filter(output -> !output.name().equals(CAUTION))
                        .map(output -> new Result(
                                words.label(output, locale),
                                words.result(
                                        Objects.requireNonNull(
                                                calculation.results().get(output.name())),
                                        output.unit(),
                                        locale)))
                        .toList());
        Object caution = calculation.results().get(CAUTION);
        if (caution != null) {
            model.addAttribute("caution", words.result(caution, "", locale));
        }
        model.addAttribute("working", calculation.working());
        model.addAttribute("metricWorking", words.inUsUnits());
        model.addAttribute(
                "systems",
                systems.search("", null, null).stream()
                        .filter(WaterSystemLine::active)
                        .map(line -> new Choice(line.code(), line.clientName() + ", " + line.name()))
                        .toList());
    }

    private Optional<Worked> work(Calculator calculator, BenchForm form, BindingResult result, Locale locale) {
        FormReader reader = new FormReader(result, locale);
        Map<String, Object> inputs = read(calculator, form, reader);
        if (!reader.accepted()) {
            return Optional.empty();
        }
        try {
            return Optional.of(new Worked(inputs, calculator.calculate(inputs)));
        } catch (InputErrors refused) {
            for (InputErrors.InputError error : refused.errors()) {
                Input input = calculator.inputs().stream()
                        .filter(each -> each.name().equals(error.input()))
                        .findFirst()
                        .orElseThrow();
                reader.refuse(
                        path(input),
                        "bench.input." + error.code(),
                        words.label(input, locale),
                        words.range(input, locale));
            }
        } catch (CalculationRefused refused) {
            refuse(calculator, form, refused, reader, locale);
        }
        return Optional.empty();
    }

    private Map<String, Object> read(Calculator calculator, BenchForm form, FormReader reader) {
        Map<String, Object> inputs = new LinkedHashMap<>();
        for (Input input : calculator.inputs()) {
            String text = Objects.requireNonNullElse(form.getValues().get(input.name()), "");
            if (text.isBlank()) {
                continue;
            }
            switch (input.kind()) {
                case CHOICE -> inputs.put(input.name(), text);
                case NUMBER ->
                    reader.number(path(input), text)
                            .ifPresent(number -> inputs.put(input.name(), taken(input, number)));
                case SERIES -> inputs.put(input.name(), series(input, text, reader));
            }
        }
        return inputs;
    }

    /** Numbers with blanks or new lines between them; a comma at the end of one belongs to the list, not to the number. */
    private List<Double> series(Input input, String text, FormReader reader) {
        List<Double> numbers = new ArrayList<>();
        for (String word : BETWEEN_NUMBERS.split(text.strip(), -1)) {
            String typed = word.endsWith(",") ? word.substring(0, word.length() - 1) : word;
            Optional<BigDecimal> number = reader.number(path(input), typed);
            if (number.isEmpty()) {
                return numbers;
            }
            numbers.add(taken(input, number.get()));
        }
        return numbers;
    }

    private double taken(Input input, BigDecimal typed) {
        return words.unit(input.unit()).taken().applyAsDouble(typed.doubleValue());
    }

    private void refuse(
            Calculator calculator, BenchForm form, CalculationRefused refused, FormReader reader, Locale locale) {
        CalculationRefused.Range range = refused.range();
        Optional<Input> input = calculator.inputs().stream()
                .filter(each -> each.name().equals(range.input()))
                .findFirst();
        ShownUnit unit = words.unit(range.unit());
        String limits = words.limits(
                unit.shown().applyAsDouble(range.low()),
                unit.shown().applyAsDouble(range.high()),
                unit.text(),
                range.from(),
                locale);
        String what =
                input.map(each -> words.label(each, locale)).orElseGet(() -> words.quantity(range.input(), locale));
        String typed = Objects.requireNonNullElse(form.getValues().get(range.input()), "");
        boolean known = words.has("bench.refused." + refused.code(), locale);
        reader.refuse(
                input.map(BenchController::path).orElse(""),
                known ? "bench.refused." + refused.code() : "bench.refused",
                what,
                limits,
                typed.length() <= 24 ? typed : "",
                refused.code(),
                likely(refused));
    }

    /** What the number would be on the scale that was asked for: a salinity to a tenth, a gravity to a ten-thousandth. */
    private static Object likely(CalculationRefused refused) {
        int places = refused.code().equals(CalculationRefused.LOOKS_LIKE_GRAVITY) ? 1 : 4;
        return refused.likely().isPresent()
                ? BigDecimal.valueOf(refused.likely().getAsDouble()).setScale(places, RoundingMode.HALF_EVEN)
                : "";
    }

    private static String path(Input input) {
        return "values[" + input.name() + "]";
    }
}
