package app.tankround.chemistry;

import java.util.List;

/**
 * Something that a plant needs, to be worded where it is shown.
 *
 * @param numbers as the code says
 */
public record PurifiedWaterNote(PurifiedWaterCode code, List<Double> numbers) {

    public PurifiedWaterNote {
        numbers = List.copyOf(numbers);
    }

    static PurifiedWaterNote of(PurifiedWaterCode code, Double... numbers) {
        return new PurifiedWaterNote(code, List.of(numbers));
    }
}
