package app.tankround.readings.web;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Temperatures;
import app.tankround.instruments.InstrumentChoices;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Answer;
import app.tankround.readings.ComparisonWords;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.SampleComparisons;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** All readings of a system, one with its grounds, a reading by hand, and the correction of one. */
@Controller
class ReadingController {

    private static final int MOST_LINES = 500;

    private final ReadingService readings;
    private final ReadingLines lines;
    private final ReadingGrounds grounds;
    private final SampleComparisons comparisons;
    private final ComparisonWords comparisonWords;
    private final WaterSystems systems;
    private final InstrumentChoices instruments;
    private final CurrentPerson currentPerson;
    private final Temperatures temperatures;
    private final MessageSource messages;
    private final Clock clock;

    ReadingController(
            ReadingService readings,
            ReadingLines lines,
            ReadingGrounds grounds,
            SampleComparisons comparisons,
            ComparisonWords comparisonWords,
            WaterSystems systems,
            InstrumentChoices instruments,
            CurrentPerson currentPerson,
            Temperatures temperatures,
            MessageSource messages,
            Clock clock) {
        this.readings = readings;
        this.lines = lines;
        this.grounds = grounds;
        this.comparisons = comparisons;
        this.comparisonWords = comparisonWords;
        this.systems = systems;
        this.instruments = instruments;
        this.currentPerson = currentPerson;
        this.temperatures = temperatures;
        this.messages = messages;
        this.clock = clock;
    }

    @GetMapping("/systems/{id}/readings")
    String list(@PathVariable WaterSystemId id, Model model, Locale locale) {
        ReadingLines.Page page = lines.page(locale);
        model.addAttribute("system", systems.require(id));
        model.addAttribute("lines", page.of(readings.bySystem(id, MOST_LINES)));
        return "readings/readings";
    }

    @GetMapping("/readings/{reading}")
    String one(@PathVariable ReadingId reading, Model model, Locale locale) {
        ReadingView stored = readings.require(reading);
        model.addAttribute("system", systems.require(stored.systemId()));
        model.addAttribute("line", lines.page(locale).of(List.of(stored)).getFirst());
        model.addAttribute("grounds", grounds.of(stored, locale));
        model.addAttribute(
                "comparisons",
                comparisons.of(stored).stream()
                        .map(compared -> comparisonWords.of(compared, locale))
                        .toList());
        return "readings/reading";
    }

    @GetMapping("/systems/{id}/readings/new")
    String newReading(@PathVariable WaterSystemId id, Model model, Locale locale) {
        var readingId = new ReadingId(Uuids.next(clock.instant()));
        model.addAttribute(
                "form", ReadingForm.empty(readingId, LocalDateTime.ofInstant(clock.instant(), lines.zone())));
        fill(systems.require(id), model, locale);
        return "readings/reading-form";
    }

    @PostMapping("/systems/{id}/readings/new")
    String add(
            @PathVariable("id") WaterSystemId system,
            @ModelAttribute("form") ReadingForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                readings.record(form.toCommand(
                        system,
                        currentPerson.require().id(),
                        Optional.empty(),
                        lines.zone(),
                        temperatures,
                        Optional.empty()));
                redirect.addFlashAttribute("flash", "readings.saved");
                return "redirect:/systems/" + system + "/readings";
            } catch (FieldRefusal refusal) {
                atForm(temperatures.shown(refusal)).into(result);
            }
        }
        fill(systems.require(system), model, locale);
        return "readings/reading-form";
    }

    @GetMapping("/readings/{reading}/correct")
    String correction(@PathVariable ReadingId reading, Model model, Locale locale) {
        ReadingView stored = readings.require(reading);
        var newId = new ReadingId(Uuids.next(clock.instant()));
        model.addAttribute("form", ReadingForm.correcting(stored, newId, lines.zone(), temperatures));
        model.addAttribute("stored", lines.page(locale).of(stored));
        fill(systems.require(stored.systemId()), model, locale);
        return "readings/reading-form";
    }

    @PostMapping("/readings/{reading}/correct")
    String correct(
            @PathVariable ReadingId reading,
            @ModelAttribute("form") ReadingForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        ReadingView stored = readings.require(reading);
        if (!result.hasErrors()) {
            try {
                String reason = form.reason();
                readings.correct(
                        reading,
                        form.toCommand(
                                stored.systemId(),
                                currentPerson.require().id(),
                                stored.visitId(),
                                lines.zone(),
                                temperatures,
                                stored.sampleTemperature()),
                        reason == null ? "" : reason);
                redirect.addFlashAttribute("flash", "readings.saved");
                return "redirect:/systems/" + stored.systemId() + "/readings";
            } catch (FieldRefusal refusal) {
                atForm(temperatures.shown(refusal)).into(result);
            }
        }
        model.addAttribute("stored", lines.page(locale).of(stored));
        fill(systems.require(stored.systemId()), model, locale);
        return "readings/reading-form";
    }

    /** The form has day and time where the service has an instant. */
    private static FieldRefusal atForm(FieldRefusal refusal) {
        return refusal.field().equals("takenAt")
                ? new FieldRefusal("takenOn", refusal.code(), refusal.args().toArray())
                : refusal;
    }

    private void fill(WaterSystemView system, Model model, Locale locale) {
        model.addAttribute("system", system);
        model.addAttribute("quantities", choices(Quantity.read().toArray(Quantity[]::new), "quantity.", locale));
        model.addAttribute("answers", choices(Answer.values(), "readings.answer.", locale));
        model.addAttribute(
                "units",
                Arrays.stream(MeasurementUnit.values())
                        .map(measured -> new Choice(measured.name(), measured.symbol()))
                        .toList());
        model.addAttribute("degrees", temperatures.unit().symbol());
        model.addAttribute("instruments", instruments.all(locale));
        model.addAttribute(
                "samplePoints",
                systems.samplePoints(system.id()).stream()
                        .map(point -> new Choice(point.id().toString(), point.name()))
                        .toList());
    }

    private List<Choice> choices(Enum<?>[] values, String prefix, Locale locale) {
        return Arrays.stream(values)
                .map(named ->
                        new Choice(named.name(), messages.getMessage(prefix + named.name(), new Object[0], locale)))
                .toList();
    }
}
