package app.tankround.chemistry.calculator;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** All calculators, group by group. */
public final class Calculators {

    private static final List<Calculator> ALL = Stream.of(
                    SalinityCalculators.all(),
                    MixingCalculators.all(),
                    WaterCalculators.all(),
                    DosingCalculators.all(),
                    PlantCalculators.all(),
                    StatisticsCalculators.all())
            .flatMap(List::stream)
            .toList();

    private Calculators() {}

    public static List<Calculator> all() {
        return ALL;
    }

    public static Optional<Calculator> named(String name) {
        return ALL.stream().filter(calculator -> calculator.name().equals(name)).findFirst();
    }
}
