package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.chemistry.Surprise.Done;
import app.tankround.chemistry.Surprise.Measured;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** How far water moves between two visits is common practice, no source; the sums beside each check are by hand. */
class SurpriseTests {

    private static final long DAY = 86_400_000;

    /** In 14 days at most 2.5 dKH, and the kits 0.5 each: the root of 0.5 is 0.71. */
    @Test
    void isSurprisedBeyondWhatWaterMovesAndBothMethodsExplain() {
        List<Measured> earlier = List.of(new Measured(8, 0.5, 0));
        assertThat(of(Quantity.ALKALINITY, 11.2, 0.5, 14, earlier, null)).isNull();
        Surprise surprise = Objects.requireNonNull(of(Quantity.ALKALINITY, 11.3, 0.5, 14, earlier, null));
        assertThat(surprise.movement()).isEqualTo(2.5);
        assertThat(surprise.methods()).isBetween(0.707, 0.708);
        assertThat(surprise.days()).isEqualTo(14);
        assertThat(of(Quantity.ALKALINITY, 4.7, 0.5, 14, earlier, null)).isNotNull();
    }

    /** Half a day: 0.5 dKH, where it is 1 a day. */
    @Test
    void expectsLessTheSoonerItIsReadAgain() {
        List<Measured> earlier = List.of(new Measured(8, 0, 0));
        assertThat(Surprise.of(Quantity.ALKALINITY, new Measured(8.6, 0, DAY / 2), earlier, null, List.of()))
                .isNotNull();
        assertThat(Surprise.of(Quantity.ALKALINITY, new Measured(8.6, 0, DAY), earlier, null, List.of()))
                .isNull();
    }

    @Test
    void expectsWhatTheSystemDidBefore() {
        List<Measured> restless =
                List.of(new Measured(5, 0, 0), new Measured(30, 0, 7 * DAY), new Measured(10, 0, 14 * DAY));
        assertThat(of(Quantity.NITRATE, 34, 0, 21, restless, null)).isNull();
        assertThat(of(Quantity.NITRATE, 36, 0, 21, restless, null)).isNotNull();
    }

    @Test
    void expectsWhereThePlanWasToBringItAndAllOnTheWay() {
        List<Measured> earlier = List.of(new Measured(30, 0.2, 0));
        assertThat(of(Quantity.SALINITY, 33, 0.2, 7, earlier, null)).isNotNull();
        assertThat(of(Quantity.SALINITY, 33, 0.2, 7, earlier, 34d)).isNull();
        assertThat(of(Quantity.SALINITY, 31.5, 0.2, 7, earlier, 34d)).isNull();
        assertThat(of(Quantity.SALINITY, 36, 0.2, 7, earlier, 34d)).isNotNull();
    }

    @Test
    void knowsNothingOfWaterLongUnreadOfNoReadingBeforeAndOfWhatNobodyFollows() {
        List<Measured> earlier = List.of(new Measured(8, 0, 0));
        assertThat(of(Quantity.ALKALINITY, 20, 0, 60, earlier, null)).isNotNull();
        assertThat(of(Quantity.ALKALINITY, 20, 0, 61, earlier, null)).isNull();
        assertThat(of(Quantity.ALKALINITY, 20, 0, 1, List.of(), null)).isNull();
        assertThat(of(Quantity.FREE_CHLORINE, 20, 0, 1, earlier, null)).isNull();
    }

    /** Half of 40 mg/L is 20 with water that holds none, and such water moves 20 mg/L at most by itself. */
    @Test
    void expectsWhatAChangeOfWaterThinsOut() {
        List<Measured> earlier = List.of(new Measured(80, 0, 0));
        Done half = Done.change(Quantity.NITRATE, true, 0.5, 0d);
        assertThat(after(Quantity.NITRATE, 45, 14, earlier)).isNotNull();
        assertThat(after(Quantity.NITRATE, 45, 14, earlier, half)).isNull();
        assertThat(after(Quantity.NITRATE, 21, 14, earlier, half)).isNull();
        Surprise less = Objects.requireNonNull(after(Quantity.NITRATE, 19, 14, earlier, half));
        assertThat(less.lowest()).isEqualTo(40);
        assertThat(less.highest()).isEqualTo(80);
        // A quarter is left of it after two.
        assertThat(after(Quantity.NITRATE, 19, 14, earlier, half, half)).isNull();
        // Nobody measured the new water: up to 5 mg/L in salt water.
        assertThat(after(Quantity.NITRATE, 24, 14, earlier, Done.change(Quantity.NITRATE, true, 0.5, null)))
                .isNull();
        assertThat(after(Quantity.NITRATE, 101, 14, earlier, half)).isNotNull();
    }

    /** 30 g that raise by 0.1 dKH each: 3 dKH. */
    @Test
    void expectsWhatADoseOfKnownStrengthRaises() {
        List<Measured> earlier = List.of(new Measured(7, 0, 0));
        Done known = Done.dose(Quantity.ALKALINITY, "sodium bicarbonate", 3d);
        assertThat(after(Quantity.ALKALINITY, 12, 14, earlier)).isNotNull();
        assertThat(after(Quantity.ALKALINITY, 12, 14, earlier, known)).isNull();
        assertThat(after(Quantity.ALKALINITY, 12.6, 14, earlier, known)).isNotNull();
        assertThat(after(Quantity.ALKALINITY, 4.4, 14, earlier, known)).isNotNull();
    }

    @Test
    void expectsAnyRiseOfADoseOfUnknownStrengthAndNoFall() {
        List<Measured> earlier = List.of(new Measured(7, 0, 0));
        Done unknown = Done.dose(Quantity.ALKALINITY, "reef buffer", null);
        assertThat(after(Quantity.ALKALINITY, 18, 14, earlier, unknown)).isNull();
        Surprise fall = Objects.requireNonNull(after(Quantity.ALKALINITY, 4.4, 14, earlier, unknown));
        assertThat(fall.highest()).isNull();
        assertThat(fall.lowest()).isEqualTo(7);
        // What is given for something else explains nothing.
        assertThat(after(Quantity.ALKALINITY, 18, 14, earlier, Done.dose(Quantity.ALKALINITY, "iodine", null)))
                .isNotNull();
        assertThat(after(
                        Quantity.NITRATE,
                        10,
                        14,
                        List.of(new Measured(80, 0, 0)),
                        Done.dose(Quantity.NITRATE, "vodka", null)))
                .isNull();
    }

    private static @Nullable Surprise after(
            Quantity quantity, double value, int days, List<Measured> earlier, Done... done) {
        return Surprise.of(quantity, new Measured(value, 0, days * DAY), earlier, null, List.of(done));
    }

    /** 9/5 and the 32 of the Fahrenheit scale by definition: 77 °F is 25 °C, and 1.8 °F more is 1 K. */
    @Test
    void comparesInOneUnit() {
        Measured measured = Measured.of(Quantity.TEMPERATURE, MeasurementUnit.DEGREE_FAHRENHEIT, 77, 1.8, 5);
        assertThat(measured.value()).isBetween(24.9999, 25.0001);
        assertThat(measured.expandedUncertainty()).isBetween(0.9999, 1.0001);
        assertThat(measured.atEpochMilli()).isEqualTo(5);
    }

    private static @Nullable Surprise of(
            Quantity quantity,
            double value,
            double uncertainty,
            int days,
            List<Measured> earlier,
            @Nullable Double planned) {
        return Surprise.of(quantity, new Measured(value, uncertainty, days * DAY), earlier, planned, List.of());
    }
}
