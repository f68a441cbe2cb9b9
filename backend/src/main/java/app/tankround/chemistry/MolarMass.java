package app.tankround.chemistry;

import java.util.Map;

/**
 * Molar mass of a compound from its formula, by the abridged standard atomic weights of the IUPAC Commission on Isotopic
 * Abundances and Atomic Weights, 2021.
 */
public final class MolarMass {

    private static final Map<String, Double> ATOMIC_WEIGHTS = Map.ofEntries(
            Map.entry("H", 1.0080),
            Map.entry("B", 10.81),
            Map.entry("C", 12.011),
            Map.entry("N", 14.007),
            Map.entry("O", 15.999),
            Map.entry("F", 18.998),
            Map.entry("Na", 22.990),
            Map.entry("Mg", 24.305),
            Map.entry("P", 30.974),
            Map.entry("S", 32.06),
            Map.entry("Cl", 35.45),
            Map.entry("K", 39.098),
            Map.entry("Ca", 40.078),
            Map.entry("Fe", 55.845),
            Map.entry("Cu", 63.546),
            Map.entry("Br", 79.904),
            Map.entry("Sr", 87.62),
            Map.entry("I", 126.90));

    private MolarMass() {}

    /**
     * Molar mass in g/mol.
     *
     * @param formula elements with counts, groups in parentheses, water of crystallisation behind a raised dot, such as
     *     {@code Ca(OH)2} or {@code MgSO4·7H2O}
     * @throws IllegalArgumentException if it is not of that form or names an element that is not in the table
     */
    public static double of(String formula) {
        double sum = 0;
        int from = 0;
        for (int dot = formula.indexOf('·'); dot >= 0; dot = formula.indexOf('·', from)) {
            sum += new Reader(formula, from, dot).part();
            from = dot + 1;
        }
        return sum + new Reader(formula, from, formula.length()).part();
    }

    private static final class Reader {

        private final String formula;
        private final int end;
        private int at;

        Reader(String formula, int at, int end) {
            this.formula = formula;
            this.at = at;
            this.end = end;
        }

        /** A part between raised dots, with the count in front of it. */
        double part() {
            int count = count();
            double mass = group();
            if (at < end || mass == 0) {
                throw unreadable();
            }
            return count * mass;
        }

        private double group() {
            double sum = 0;
            while (at < end && formula.charAt(at) != ')') {
                double one;
                if (formula.charAt(at) == '(') {
                    at++;
                    one = group();
                    if (at >= end) {
                        throw unreadable();
                    }
                    at++;
                } else {
                    one = element();
                }
                sum += one * count();
            }
            return sum;
        }

        private double element() {
            int start = at;
            at++;
            while (at < end && formula.charAt(at) >= 'a' && formula.charAt(at) <= 'z') {
                at++;
            }
            Double weight = ATOMIC_WEIGHTS.get(formula.substring(start, at));
            if (weight == null) {
                throw unreadable();
            }
            return weight;
        }

        private int count() {
            int start = at;
            while (at < end && formula.charAt(at) >= '0' && formula.charAt(at) <= '9') {
                at++;
            }
            return start == at ? 1 : Integer.parseInt(formula.substring(start, at));
        }

        private IllegalArgumentException unreadable() {
            return new IllegalArgumentException("Not a formula of known elements: " + formula);
        }
    }
}
