package app.tankround.purification;

import app.tankround.accounts.DepotId;
import app.tankround.chemistry.PretreatmentState;
import app.tankround.chemistry.PurifiedWaterNote;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * What whoever draws water from a plant must know about chlorine and chloramine before it goes into a van: dissolved solids
 * near zero say nothing about them.
 */
@Component
public class DrawnWater {

    /** What to do with the water of a plant, the worst first. */
    public enum Use {
        /** Chlorine or chloramine was found after the carbon. */
        NOT,
        /** A test after the carbon is due, or nobody knows whether it is. */
        TEST_FIRST,
        /** Tested, and the next test is not due yet. */
        FREE
    }

    /**
     * The water of one plant.
     *
     * @param title what to do with it
     * @param words why
     * @param page of the plant
     */
    public record Line(Use use, String title, List<String> words, String page) {

        public Line {
            words = List.copyOf(words);
        }
    }

    private final PlantReview review;
    private final PurifiedWaterWords words;
    private final WaterSystems systems;
    private final SiteService sites;
    private final MessageSource messages;

    DrawnWater(
            PlantReview review,
            PurifiedWaterWords words,
            WaterSystems systems,
            SiteService sites,
            MessageSource messages) {
        this.review = review;
        this.words = words;
        this.systems = systems;
        this.sites = sites;
        this.messages = messages;
    }

    /** The plants with carbon from which a van of a depot draws: those of the depot, and those that stand at none. */
    @Transactional(readOnly = true)
    public List<Line> at(DepotId depot, Locale locale) {
        List<Line> lines = new ArrayList<>();
        for (PlantState plant : review.all()) {
            WaterSystemView system = systems.require(plant.plantId());
            boolean here = sites.find(system.siteId())
                    .flatMap(SiteView::depotId)
                    .map(depot::equals)
                    .orElse(true);
            if (here) {
                line(plant, system, locale).ifPresent(lines::add);
            }
        }
        return lines;
    }

    private Optional<Line> line(PlantState plant, WaterSystemView system, Locale locale) {
        List<PlantState.StageState> carbon = plant.stages().stream()
                .filter(state -> state.stage().details().kind() == StageKind.CARBON)
                .toList();
        if (carbon.isEmpty()) {
            return Optional.empty();
        }
        List<PurifiedWaterNote> passing = notes(carbon, Use.NOT);
        List<PurifiedWaterNote> due = notes(carbon, Use.TEST_FIRST);
        Use use = !passing.isEmpty() ? Use.NOT : !due.isEmpty() ? Use.TEST_FIRST : Use.FREE;
        List<String> said = new ArrayList<>();
        passing.forEach(note -> said.add(words.sentence(note, locale)));
        due.forEach(note -> said.add(words.sentence(note, locale)));
        if (due.isEmpty()) {
            carbon.stream().flatMap(state -> next(state, locale).stream()).forEach(said::add);
        }
        return Optional.of(new Line(
                use,
                messages.getMessage("purification.drawn." + use, new Object[] {system.name()}, locale),
                said,
                plant.page()));
    }

    private static List<PurifiedWaterNote> notes(List<PlantState.StageState> carbon, Use use) {
        return carbon.stream()
                .flatMap(state -> state.notes().stream())
                .filter(note -> use(note) == use)
                .toList();
    }

    private static Use use(PurifiedWaterNote note) {
        return switch (note.code()) {
            case CHLORINE_PASSES, CHLORAMINE_PASSES -> Use.NOT;
            case CHLORINE_TEST_DUE, LITRES_UNKNOWN, CHLORINE_NEVER_TESTED, CHLORAMINE_UNKNOWN -> Use.TEST_FIRST;
            default -> Use.FREE;
        };
    }

    /** After how much more water the next test is due. */
    private Optional<String> next(PlantState.StageState carbon, Locale locale) {
        double allowed = Objects.requireNonNullElse(
                carbon.stage().details().litresBetweenTests(), PretreatmentState.USUAL_LITRES_BETWEEN_TESTS);
        return carbon.test()
                .filter(test -> test.litresSince().isPresent())
                .map(test -> allowed - test.litresSince().getAsDouble())
                .filter(left -> left > 0)
                .map(left -> messages.getMessage(
                        "purification.drawn.next",
                        new Object[] {words.figures(locale).volume(left)},
                        locale));
    }
}
