package app.tankround.chemistry.calculator;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The answer of a calculator.
 *
 * @param results each a Double, String, Boolean or List of Double, by output name
 * @param units of the results, by output name
 * @param working the formula with the numbers put in, line by line
 * @param source where the formula comes from
 */
public record Calculation(Map<String, Object> results, Map<String, String> units, List<String> working, String source) {

    /** Results while a rule puts them together. */
    public static final class Results {

        private final Map<String, Object> values = new LinkedHashMap<>();
        private final List<String> working = new ArrayList<>();

        private Results() {}

        /** Results to which every output is added where it applies. */
        public static Results empty() {
            return new Results();
        }

        public static Results of(String output, double value) {
            return new Results().and(output, value);
        }

        public static Results of(String output, String value) {
            return new Results().and(output, value);
        }

        public static Results of(String output, boolean value) {
            return new Results().and(output, value);
        }

        public static Results of(String output, double[] values) {
            return new Results().and(output, values);
        }

        public Results and(String output, double value) {
            return put(output, value);
        }

        public Results and(String output, String value) {
            return put(output, value);
        }

        public Results and(String output, boolean value) {
            return put(output, value);
        }

        public Results and(String output, double[] numbers) {
            List<Double> list = new ArrayList<>();
            for (double number : numbers) {
                list.add(number);
            }
            return put(output, Collections.unmodifiableList(list));
        }

        /** Adds a line of working; numbers in it by {@link Working#number}. */
        public Results working(String line) {
            working.add(line);
            return this;
        }

        Map<String, Object> values() {
            return values;
        }

        List<String> lines() {
            return List.copyOf(working);
        }

        private Results put(String output, Object value) {
            if (values.put(output, value) != null) {
                throw new IllegalStateException("answered twice: " + output);
            }
            return this;
        }
    }
}
