package app.tankround.chemistry;

/** Straight lines between the cells of a table whose steps are equal. */
final class Interpolation {

    private Interpolation() {}

    /**
     * @param cells values at {@code first}, {@code first + step} and so on
     * @param at within the table, ends included; not checked
     */
    static double linear(double[] cells, double first, double step, double at) {
        double position = (at - first) / step;
        int below = Math.min((int) Math.floor(position), cells.length - 2);
        double beyond = position - below;
        return cells[below] + beyond * (cells[below + 1] - cells[below]);
    }

    /** By the cubic through the two cells on either side; at the ends through the nearest four. Arguments as above. */
    static double cubic(double[] cells, double first, double step, double at) {
        double position = (at - first) / step;
        int start = Math.max(0, Math.min((int) Math.floor(position) - 1, cells.length - 4));
        double x = position - start;
        double sum = 0;
        for (int i = 0; i < 4; i++) {
            double weight = 1;
            for (int j = 0; j < 4; j++) {
                if (j != i) {
                    weight *= (x - j) / (i - j);
                }
            }
            sum += weight * cells[start + i];
        }
        return sum;
    }
}
