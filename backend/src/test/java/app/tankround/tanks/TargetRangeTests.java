package app.tankround.tanks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class TargetRangeTests {

    /** 77 °F is 25 °C and 80.6 °F is 27 °C: °C = (°F - 32) / 1.8, exact (NIST Special Publication 811, B.8). */
    @Test
    void keepsFahrenheitAsCelsius() {
        var target = TargetRange.of(Quantity.TEMPERATURE, "77", "80.6", MeasurementUnit.DEGREE_FAHRENHEIT);

        assertThat(target).isEqualTo(TargetRange.of(Quantity.TEMPERATURE, "25", "27", MeasurementUnit.DEGREE_CELSIUS));
    }

    @Test
    void writesEveryLimitInOneWay() {
        var target = TargetRange.of(Quantity.CALCIUM, "380.00", "450", MeasurementUnit.MILLIGRAMS_PER_LITRE);

        assertThat(target.low()).isEqualTo(new BigDecimal("380"));
        assertThat(target.high()).hasToString("450");
    }

    @ParameterizedTest
    @CsvSource({"20/20, 20/20", "60F/60F, 60F/60F", "25/4, 25/4", "' 25/25 ', 25/25"})
    void keepsTheReferenceOfASpecificGravity(String written, String kept) {
        assertThat(TargetRange.ofGravity("1.023", "1.026", written).gravityReference())
                .isEqualTo(kept);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "20", "hot/cold", "20/400"})
    void refusesASpecificGravityWithoutItsReference(String reference) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> TargetRange.ofGravity("1.023", "1.026", reference))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("gravityReference"));
    }

    @Test
    void refusesAReferenceBesideAnotherUnit() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> new TargetRange(
                        Quantity.SALINITY, BigDecimal.TEN, null, MeasurementUnit.PRACTICAL_SALINITY, "20/20"));
    }

    @Test
    void refusesAUnitOfAnotherQuantity() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> TargetRange.of(Quantity.PH, "7", "8", MeasurementUnit.MILLIGRAMS_PER_LITRE))
                .satisfies(refusal -> assertThat(refusal.args()).containsExactly("mg/L", "pH"));
    }

    @ParameterizedTest
    @CsvSource({"8.4, 7.9, high", ", , low", "-1, 8, low", "7, 1025, high"})
    void refusesLimitsThatMakeNoRange(String low, String high, String field) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> TargetRange.of(Quantity.PH, low, high, MeasurementUnit.PH_UNIT))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo(field));
    }

    @Test
    void takesEachQuantityOnce() {
        var target = TargetRange.of(Quantity.PH, "7", "8", MeasurementUnit.PH_UNIT);

        assertThatExceptionOfType(FieldRefusal.class).isThrownBy(() -> Targets.of(List.of(target, target)));
    }
}
