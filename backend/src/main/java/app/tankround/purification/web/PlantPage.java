package app.tankround.purification.web;

import app.tankround.accounts.Days;
import app.tankround.chemistry.MembraneHealth;
import app.tankround.chemistry.PretreatmentState;
import app.tankround.chemistry.PretreatmentState.ChlorineTest;
import app.tankround.purification.Place;
import app.tankround.purification.PlantFigures;
import app.tankround.purification.PlantState;
import app.tankround.purification.PlantState.ContainerState;
import app.tankround.purification.PlantState.PointState;
import app.tankround.purification.PlantState.ResinState;
import app.tankround.purification.PlantState.StageState;
import app.tankround.purification.PurifiedWaterWords;
import app.tankround.purification.StageDetails;
import app.tankround.purification.StageKind;
import app.tankround.readings.ReadingMarks;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.web.VerdictMark;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleFunction;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Puts a plant's state into the lines and sentences of its page. */
@Component
class PlantPage {

    /** What the page shows; {@code needs} are sentences, {@code missing} the kinds of stages that it has none of. */
    record Page(
            List<String> needs,
            List<PointLine> points,
            List<ContainerLine> containers,
            List<StageLine> stages,
            List<StageKind> missing,
            String made,
            String perDay) {}

    /** Water at a point; {@code line} is null where nobody measured. */
    record PointLine(String title, String name, @Nullable Line line) {}

    /** A reading as the verdict fragment of the readings wants it. */
    record Line(
            String when,
            VerdictWords.Words words,
            String target,
            @Nullable VerdictMark mark) {}

    record ContainerLine(
            String systemId,
            @Nullable String pointId,
            String name,
            @Nullable Line line,
            String washed,
            String creep) {}

    record StageLine(String id, String kind, String name, String installed, List<String> facts, List<String> needs) {}

    private final PurifiedWaterWords words;
    private final VerdictWords verdicts;
    private final MessageSource messages;
    private final Days days;

    PlantPage(PurifiedWaterWords words, VerdictWords verdicts, MessageSource messages, Days days) {
        this.words = words;
        this.verdicts = verdicts;
        this.messages = messages;
        this.days = days;
    }

    Page of(PlantState state, Locale locale) {
        PlantFigures figures = words.figures(locale);
        return new Page(
                needs(state, locale),
                state.points().stream()
                        .filter(point -> point.place()
                                .filter(place -> place == Place.CONTAINER)
                                .isEmpty())
                        .map(point -> new PointLine(
                                title(point, locale), point.point().name(), line(point.solids(), locale)))
                        .toList(),
                state.containers().stream()
                        .map(container -> container(container, locale))
                        .toList(),
                state.stages().stream()
                        .map(stage -> stage(stage, figures, locale))
                        .toList(),
                Arrays.stream(StageKind.values())
                        .filter(kind -> state.stages().stream()
                                .noneMatch(stage -> stage.stage().details().kind() == kind))
                        .toList(),
                text(state.made().meter(), figures::volume),
                text(state.made().litresPerDay(), figures::volume));
    }

    /** All that the plant and its containers need. */
    List<String> needs(PlantState state, Locale locale) {
        Stream<String> creeps = state.containers().stream()
                .filter(container -> container.creep().isPresent())
                .map(container ->
                        text("purification.creep.at", locale, container.name(), words.creep(container, locale)));
        return Stream.concat(creeps, state.notes().stream().map(note -> words.sentence(note, locale)))
                .toList();
    }

    /** Where a point is, else its name. */
    String title(PointState point, Locale locale) {
        return point.place()
                .map(place -> text("purification.place." + place.name(), locale))
                .orElse(point.point().name());
    }

    private ContainerLine container(ContainerState container, Locale locale) {
        return new ContainerLine(
                container.systemId().toString(),
                container.pointId().map(Object::toString).orElse(null),
                container.name(),
                line(container.solids(), locale),
                container.washedOn().map(day -> Days.day(day, locale)).orElse(""),
                words.creep(container, locale));
    }

    private @Nullable Line line(Optional<ReadingView> reading, Locale locale) {
        return reading.map(read -> new Line(
                        days.day(read.takenAt(), locale),
                        verdicts.of(read, locale),
                        verdicts.target(read, locale).orElse(""),
                        ReadingMarks.of(read, Optional.empty()).orElse(null)))
                .orElse(null);
    }

    private StageLine stage(StageState state, PlantFigures figures, Locale locale) {
        StageDetails details = state.stage().details();
        return new StageLine(
                state.stage().id().toString(),
                text("purification.stage." + details.kind().name(), locale),
                details.name(),
                Days.day(details.installedOn(), locale),
                facts(state, figures, locale),
                state.notes().stream().map(note -> words.sentence(note, locale)).toList());
    }

    private List<String> facts(StageState state, PlantFigures figures, Locale locale) {
        return switch (state.stage().details().kind()) {
            case PREFILTER ->
                List.of(
                        state.drop().isPresent()
                                ? text(
                                        "purification.fact.drop",
                                        locale,
                                        figures.pressure(state.drop().getAsDouble()))
                                : text("purification.fact.drop.none", locale),
                        age(state, PretreatmentState.USUAL_PREFILTER_MONTHS, locale));
            case CARBON ->
                List.of(
                        state.test()
                                .map(test -> chlorine(test, figures, locale))
                                .orElseGet(() -> text("purification.fact.test.none", locale)),
                        age(state, PretreatmentState.USUAL_CARBON_MONTHS, locale));
            case MEMBRANE ->
                state.membrane()
                        .map(health -> membrane(health, figures, locale))
                        .orElse(List.of());
            case RESIN ->
                state.resin()
                        .map(resin -> Stream.concat(
                                        Stream.of(resin(resin, figures, locale)), reckoned(resin, figures, locale))
                                .toList())
                        .orElseGet(() -> List.of(text("purification.fact.resin.none", locale)));
        };
    }

    private String age(StageState state, int usual, Locale locale) {
        int allowed = Objects.requireNonNullElse(state.stage().details().monthsAllowed(), usual);
        return text("purification.fact.age", locale, state.months(), allowed);
    }

    private String chlorine(ChlorineTest test, PlantFigures figures, Locale locale) {
        return text(
                test.litresSince().isPresent() ? "purification.fact.test" : "purification.fact.test.unmetered",
                locale,
                tested(test.free(), figures, locale),
                tested(test.total(), figures, locale),
                text(test.litresSince(), figures::volume));
    }

    /** A kit that shows nothing does not show zero. */
    private String tested(OptionalDouble found, PlantFigures figures, Locale locale) {
        if (found.isEmpty()) {
            return text("purification.not-tested", locale);
        }
        return found.getAsDouble() < PretreatmentState.SEEN_FROM
                ? text("purification.none-seen", locale)
                : text("purification.mg-l", locale, figures.number(found.getAsDouble()));
    }

    private List<String> membrane(MembraneHealth health, PlantFigures figures, Locale locale) {
        List<String> facts = new ArrayList<>();
        facts.add(
                health.rejection().isPresent()
                        ? text(
                                "purification.fact.rejection",
                                locale,
                                figures.number(100 * health.rejection().getAsDouble()))
                        : text("purification.fact.rejection.none", locale));
        facts.add(
                health.flowShare().isPresent()
                        ? text(
                                "purification.fact.flow",
                                locale,
                                figures.number(100 * health.flowShare().getAsDouble()))
                        : text("purification.fact.flow.none", locale));
        return facts;
    }

    private String resin(ResinState resin, PlantFigures figures, Locale locale) {
        String used = figures.number(
                Math.min(100, 100 * resin.charge().used() / resin.charge().capacity()));
        if (resin.litresLeft().isEmpty()) {
            return text("purification.fact.resin.no-load", locale, used);
        }
        String litres = figures.volume(resin.litresLeft().getAsDouble());
        return resin.daysLeft().isEmpty()
                ? text("purification.fact.resin.litres", locale, litres, used)
                : text(
                        "purification.fact.resin.days",
                        locale,
                        litres,
                        (long) Math.floor(resin.daysLeft().getAsDouble()),
                        used);
    }

    private Stream<String> reckoned(ResinState resin, PlantFigures figures, Locale locale) {
        return resin.reckonedHeld().stream()
                .mapToObj(held -> text("purification.fact.resin.reckoned", locale, figures.number(100 * held)));
    }

    private static String text(OptionalDouble value, DoubleFunction<String> written) {
        return value.isPresent() ? written.apply(value.getAsDouble()) : "";
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }
}
