package app.tankround.purification.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.CurrentPerson;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.persistence.Uuids;
import app.tankround.purification.Place;
import app.tankround.purification.PlantFigures;
import app.tankround.purification.PlantReview;
import app.tankround.purification.PlantState;
import app.tankround.purification.Plants;
import app.tankround.purification.PurifiedWaterWords;
import app.tankround.purification.StageDetails;
import app.tankround.purification.StageId;
import app.tankround.purification.StageKind;
import app.tankround.purification.StageView;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.NotFound;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** A plant for purified water: how it does, what it consists of, and what is read off it. */
@Controller
@RequestMapping("/systems/{id}/purified-water")
class PlantController {

    private static final String STAGE_FORM = "purification/stage-form";
    private static final String POINTS_FORM = "purification/points-form";
    private static final String WALK_FORM = "purification/walk-form";

    private final Plants plants;
    private final PlantReview review;
    private final PlantPage page;
    private final PurifiedWaterWords words;
    private final WaterSystems systems;
    private final ReadingService readings;
    private final InstrumentRegister instruments;
    private final CurrentPerson currentPerson;
    private final BusinessProfile business;
    private final MessageSource messages;
    private final Clock clock;

    PlantController(
            Plants plants,
            PlantReview review,
            PlantPage page,
            PurifiedWaterWords words,
            WaterSystems systems,
            ReadingService readings,
            InstrumentRegister instruments,
            CurrentPerson currentPerson,
            BusinessProfile business,
            MessageSource messages,
            Clock clock) {
        this.plants = plants;
        this.review = review;
        this.page = page;
        this.words = words;
        this.systems = systems;
        this.readings = readings;
        this.instruments = instruments;
        this.currentPerson = currentPerson;
        this.business = business;
        this.messages = messages;
        this.clock = clock;
    }

    /**
     * A container's page is that of the plant that fills it.
     *
     * @throws NotFound where no water is made
     */
    @GetMapping
    String plant(@PathVariable WaterSystemId id, Model model, Locale locale) {
        WaterSystemView system = systems.require(id);
        Optional<WaterSystemId> filledBy = plants.plantOf(id);
        if (filledBy.isPresent()) {
            return "redirect:/systems/" + filledBy.get() + "/purified-water";
        }
        if (system.kind() != SystemKind.SUPPLY) {
            throw new NotFound("plant", id);
        }
        model.addAttribute("system", system);
        model.addAttribute("page", page.of(review.of(id), locale));
        return "purification/plant";
    }

    // Stages

    @GetMapping("/stages/new")
    String blankStage(
            @PathVariable WaterSystemId id,
            @RequestParam(defaultValue = "PREFILTER") StageKind kind,
            Model model,
            Locale locale) {
        show(id, model, locale);
        model.addAttribute("form", StageForm.blank(StageId.of(Uuids.next(clock.instant())), kind, systems.today()));
        return STAGE_FORM;
    }

    @PostMapping("/stages/new")
    String addStage(
            @PathVariable("id") WaterSystemId system,
            @ModelAttribute("form") StageForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        show(system, model, locale);
        if (form.kind() == null) {
            throw new NotFound("stage-kind", String.valueOf(result.getFieldValue("kind")));
        }
        StageId id = StageId.of(FormReader.madeWith("purification-stage", form.id()));
        Optional<StageDetails> details =
                form.toCommand(system, new FormReader(result, locale), words.figures(locale), systems.today());
        boolean saved = new SentForm(result, model, response)
                .saved(form, details, read -> plants.addStage(id, read), () -> stored(id, model, locale));
        return saved ? saved(system, redirect) : STAGE_FORM;
    }

    @GetMapping("/stages/{stage}")
    String editStage(@PathVariable WaterSystemId id, @PathVariable StageId stage, Model model, Locale locale) {
        show(id, model, locale);
        model.addAttribute("form", stored(stage, model, locale));
        return STAGE_FORM;
    }

    @PostMapping("/stages/{stage}")
    String changeStage(
            @PathVariable("id") WaterSystemId system,
            @PathVariable StageId stage,
            @ModelAttribute("form") StageForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        show(system, model, locale);
        StageView stored = plants.requireStage(stage);
        model.addAttribute("stage", stored);
        Optional<StageDetails> details = form.toCommand(
                stored.details().systemId(), new FormReader(result, locale), words.figures(locale), systems.today());
        boolean saved = new SentForm(result, model, response)
                .saved(
                        form,
                        details,
                        read -> plants.changeStage(stage, form.version(), read),
                        () -> stored(stage, model, locale));
        return saved ? saved(system, redirect) : STAGE_FORM;
    }

    private StageForm stored(StageId id, Model model, Locale locale) {
        StageView stage = plants.requireStage(id);
        model.addAttribute("stage", stage);
        return StageForm.of(stage, words.figures(locale));
    }

    // Points and containers

    @GetMapping("/points")
    String points(@PathVariable WaterSystemId id, Model model, Locale locale) {
        model.addAttribute("form", storedPoints(id, model, locale));
        return POINTS_FORM;
    }

    @PostMapping("/points")
    String arrange(
            @PathVariable("id") WaterSystemId system,
            @ModelAttribute("form") PointsForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        showPoints(system, model, locale);
        Optional<PointsForm.Command> command =
                form.toCommand(new FormReader(result, locale), systems.pointTargets(List.of(system)));
        boolean saved = new SentForm(result, model, response)
                .saved(
                        form,
                        command,
                        read -> plants.arrange(system, form.version(), read.arrangement(), read.targets()),
                        () -> storedPoints(system, model, locale));
        return saved ? saved(system, redirect) : POINTS_FORM;
    }

    private PointsForm storedPoints(WaterSystemId id, Model model, Locale locale) {
        WaterSystemView system = showPoints(id, model, locale);
        return PointsForm.of(
                system, systems.samplePoints(id), plants.arrangement(id), systems.pointTargets(List.of(id)), locale);
    }

    private WaterSystemView showPoints(WaterSystemId id, Model model, Locale locale) {
        WaterSystemView system = show(id, model, locale);
        model.addAttribute(
                "names",
                systems.samplePoints(id).stream()
                        .collect(Collectors.toMap(point -> point.id().toString(), SamplePointView::name)));
        model.addAttribute("neighbours", plants.neighbours(system));
        model.addAttribute("places", choices("purification.place.", Place.values(), locale));
        return system;
    }

    // What is read off

    @GetMapping("/write")
    String walk(@PathVariable WaterSystemId id, Model model, Locale locale) {
        PlantState state = showWalk(id, model, locale);
        PlantFigures figures = words.figures(locale);
        LocalDateTime now = LocalDateTime.ofInstant(clock.instant(), zone());
        List<WalkForm.Line> lines = new ArrayList<>();
        state.points().stream()
                .filter(point ->
                        point.place().filter(place -> place == Place.CONTAINER).isEmpty())
                .forEach(point -> lines.add(
                        new WalkForm.Line(id.toString(), point.point().id().toString(), null)));
        state.containers()
                .forEach(container -> lines.add(new WalkForm.Line(
                        container.systemId().toString(),
                        container.pointId().map(SamplePointId::toString).orElse(null),
                        null)));
        model.addAttribute(
                "form",
                new WalkForm(
                        Uuids.next(clock.instant()).toString(),
                        now.toLocalDate().toString(),
                        now.toLocalTime().truncatedTo(ChronoUnit.MINUTES).toString(),
                        lines,
                        null,
                        null,
                        figures.volumeUnit().code(),
                        null,
                        null,
                        MeasurementUnit.MILLILITRES_PER_MINUTE.code(),
                        null,
                        null,
                        null,
                        figures.pressureUnit().code(),
                        null,
                        null,
                        null));
        return WALK_FORM;
    }

    @PostMapping("/write")
    String write(
            @PathVariable("id") WaterSystemId system,
            @ModelAttribute("form") WalkForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        showWalk(system, model, locale);
        Map<SamplePointId, Place> places = plants.arrangement(system).places();
        var basis = new WalkForm.Basis(
                system,
                pointAt(Place.FEED, places),
                pointAt(Place.AFTER_CARBON, places),
                before -> review.meterBefore(system, before),
                words.figures(locale).temperatureUnit() == MeasurementUnit.DEGREE_CELSIUS);
        Optional<List<NewReading>> read = form.toCommand(
                new FormReader(result, locale), basis, currentPerson.require().id(), systems.today(), zone());
        if (read.isPresent()) {
            try {
                readings.recordAll(read.get());
                redirect.addFlashAttribute("flash", "purification.written");
                return "redirect:/systems/" + system + "/purified-water";
            } catch (FieldRefusal refusal) {
                atForm(refusal).into(result);
            }
        }
        return WALK_FORM;
    }

    /** The form has day, time and pen where the service has an instant and an instrument. */
    private static FieldRefusal atForm(FieldRefusal refusal) {
        String field = switch (refusal.field()) {
            case "takenAt" -> "takenOn";
            case "instrumentId", "unit" -> "pen";
            default -> refusal.field();
        };
        return new FieldRefusal(field, refusal.code(), refusal.args().toArray());
    }

    private static Optional<SamplePointId> pointAt(Place place, Map<SamplePointId, Place> places) {
        return places.entrySet().stream()
                .filter(entry -> entry.getValue() == place)
                .map(Map.Entry::getKey)
                .min(Comparator.comparing(SamplePointId::toString));
    }

    private PlantState showWalk(WaterSystemId id, Model model, Locale locale) {
        show(id, model, locale);
        PlantState state = review.of(id);
        Map<String, String> names = new HashMap<>();
        state.points().forEach(point -> names.put(point.point().id().toString(), page.title(point, locale)));
        state.containers()
                .forEach(container -> names.put(
                        container
                                .pointId()
                                .map(SamplePointId::toString)
                                .orElse(container.systemId().toString()),
                        container.name()));
        model.addAttribute("names", names);
        model.addAttribute(
                "pens",
                instruments.all().stream()
                        .filter(instrument -> instrument.quantity() == Quantity.DISSOLVED_SOLIDS
                                && instrument.unit() == MeasurementUnit.MILLIGRAMS_PER_LITRE
                                && instrument.retiredOn().isEmpty())
                        .map(instrument ->
                                new Choice(instrument.id().toString(), instrument.code() + ", " + instrument.name()))
                        .toList());
        model.addAttribute("meterUnits", units(Quantity.VOLUME_MADE));
        model.addAttribute("flowUnits", units(Quantity.PERMEATE_FLOW));
        model.addAttribute("pressureUnits", units(Quantity.PRESSURE));
        return state;
    }

    private static List<Choice> units(Quantity quantity) {
        return quantity.units().stream()
                .map(unit -> new Choice(unit.code(), unit.symbol()))
                .toList();
    }

    /** A container is washed: its dissolved solids are counted anew. */
    @PostMapping("/wash")
    String wash(
            @PathVariable("id") WaterSystemId plant,
            @RequestParam WaterSystemId system,
            @RequestParam(required = false) @Nullable SamplePointId point,
            RedirectAttributes redirect) {
        plants.washed(system, point, systems.today(), currentPerson.require().id());
        redirect.addFlashAttribute("flash", "purification.washed");
        return "redirect:/systems/" + plant + "/purified-water";
    }

    private WaterSystemView show(WaterSystemId id, Model model, Locale locale) {
        WaterSystemView system = systems.require(id);
        PlantFigures figures = words.figures(locale);
        model.addAttribute("system", system);
        model.addAttribute("figures", figures);
        return system;
    }

    private static String saved(WaterSystemId system, RedirectAttributes redirect) {
        redirect.addFlashAttribute("flash", "purification.saved");
        return "redirect:/systems/" + system + "/purified-water";
    }

    private List<Choice> choices(String prefix, Enum<?>[] values, Locale locale) {
        return Arrays.stream(values)
                .map(value -> new Choice(value.name(), messages.getMessage(prefix + value.name(), null, locale)))
                .toList();
    }

    private ZoneId zone() {
        return business.zone();
    }
}
