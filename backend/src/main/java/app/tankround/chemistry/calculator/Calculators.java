package app.tankround.chemistry.calculator;

import java.util.List;
import java.util.Optional;

/** All calculators, group by group. */
public final class Calculators {

    /**
     * Calculators about one matter, as a page lists them together.
     *
     * @param key names the group in message files
     */
    public record Group(String key, List<Calculator> calculators) {}

    private static final List<Group> GROUPS = List.of(
            new Group("salinity", SalinityCalculators.all()),
            new Group("mixing", MixingCalculators.all()),
            new Group("water", WaterCalculators.all()),
            new Group("dosing", DosingCalculators.all()),
            new Group("plant", PlantCalculators.all()),
            new Group("statistics", StatisticsCalculators.all()));

    private static final List<Calculator> ALL =
            GROUPS.stream().flatMap(group -> group.calculators().stream()).toList();

    private Calculators() {}

    /** In the order in which a page lists them. */
    public static List<Group> groups() {
        return GROUPS;
    }

    public static List<Calculator> all() {
        return ALL;
    }

    public static Optional<Calculator> named(String name) {
        return ALL.stream().filter(calculator -> calculator.name().equals(name)).findFirst();
    }
}
