package app.tankround.purification;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.PurifiedWaterNote;
import app.tankround.chemistry.SolidsCreep;
import app.tankround.purification.PlantState.ContainerState;
import app.tankround.purification.PlantState.Creep;
import java.util.List;
import java.util.Locale;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Says what a plant needs. */
@Component
public class PurifiedWaterWords {

    private final MessageSource messages;
    private final BusinessProfile business;

    PurifiedWaterWords(MessageSource messages, BusinessProfile business) {
        this.messages = messages;
        this.business = business;
    }

    public PlantFigures figures(Locale locale) {
        return new PlantFigures(business.unitSystem(), locale);
    }

    /** What a stage needs, in one or two sentences. */
    public String sentence(PurifiedWaterNote note, Locale locale) {
        PlantFigures figures = figures(locale);
        List<Double> numbers = note.numbers();
        Object[] args = switch (note.code()) {
            case RESIN_SPENT, CHLORINE_TEST_DUE ->
                numbers.stream().map(figures::volume).toArray();
            case RESIN_ENDS ->
                new Object[] {
                    figures.volume(numbers.getFirst()), numbers.getLast().longValue()
                };
            case PREFILTER_CLOGGED -> numbers.stream().map(figures::pressure).toArray();
            case PREFILTER_OLD, CARBON_OLD, LITRES_UNKNOWN ->
                numbers.stream().map(Double::longValue).toArray();
            case FLOW_DOWN,
                    FLOW_UP,
                    REJECTION_LOW,
                    RESIN_PASSES,
                    CHLORINE_PASSES,
                    CHLORAMINE_PASSES,
                    PRESSURE_UNKNOWN,
                    PERMEATE_WORSE_THAN_FEED,
                    CHLORINE_NEVER_TESTED,
                    CHLORAMINE_UNKNOWN -> numbers.stream().map(figures::number).toArray();
        };
        return text("purification.note." + note.code().name(), locale, args);
    }

    /** That a container creeps, and why it likely does; empty where it does not. */
    public String creep(ContainerState container, Locale locale) {
        PlantFigures figures = figures(locale);
        return container
                .creep()
                .map(creep -> text(
                                "purification.creep",
                                locale,
                                figures.number(creep.from()),
                                figures.number(creep.to()),
                                creep.days())
                        + " " + cause(creep, locale))
                .orElse("");
    }

    /** Where the dissolved solids likely come from and what to do. */
    public String cause(Creep creep, Locale locale) {
        SolidsCreep found = creep.found();
        PlantFigures figures = figures(locale);
        return text(
                "purification.cause." + found.cause().name(),
                locale,
                found.highestAfterResin().map(figures::number).orElse(""),
                found.otherContainers(),
                found.othersRising(),
                found.highestAfterResin().isPresent() ? 1 : 0);
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }
}
