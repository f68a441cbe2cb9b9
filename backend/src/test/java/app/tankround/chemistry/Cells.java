package app.tankround.chemistry;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleSupplier;
import java.util.function.Supplier;

/** What computes the expected cell of a row of the reference tables: one or several numbers or texts, in its order. */
@FunctionalInterface
interface Cells {

    List<?> compute();

    static Cells one(DoubleSupplier number) {
        return () -> List.of(number.getAsDouble());
    }

    static Cells several(Supplier<double[]> numbers) {
        return () -> Arrays.stream(numbers.get()).boxed().toList();
    }

    static Cells texts(Supplier<List<String>> texts) {
        return texts::get;
    }
}
