package app.tankround.chemistry;

import java.util.function.DoubleUnaryOperator;

/** Inverts a rising function; halving an interval gives the same bits on the server and in the browser. */
final class Bisection {

    private static final int HALVINGS = 64;

    private Bisection() {}

    static double whereRises(DoubleUnaryOperator rising, double wanted, double low, double high) {
        double below = low;
        double above = high;
        for (int i = 0; i < HALVINGS; i++) {
            double width = above - below;
            double middle = below + 0.5 * width;
            if (rising.applyAsDouble(middle) < wanted) {
                below = middle;
            } else {
                above = middle;
            }
        }
        return above;
    }
}
