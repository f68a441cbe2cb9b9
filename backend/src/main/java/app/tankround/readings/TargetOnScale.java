package app.tankround.readings;

import app.tankround.chemistry.ReadingTarget;
import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.StatedTarget;
import app.tankround.chemistry.Target;
import app.tankround.tanks.TargetView;
import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import java.math.BigDecimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A target in the unit and on the scale of the reading it is compared with, with its digits.
 *
 * @param general whether nobody set it: it is the limit beyond which animals of any kind are in danger
 */
record TargetOnScale(Optional<BigDecimal> low, Optional<BigDecimal> high, boolean general) {

    /**
     * What a reading is held against.
     *
     * @param target the sample point's or system's own, if there is one
     * @param scale of the reading, or of the instrument it was read on
     * @param danger beyond which animals are in danger; absent where there is no such limit, or no animals
     */
    static TargetOnScale of(
            Optional<TargetView> target, NewReading reading, SalinityScale scale, @Nullable Target danger) {
        MeasurementUnit unit = reading.unit();
        @Nullable GravityReference reference =
                reading.gravityReference().flatMap(GravityReference::parse).orElse(null);
        @Nullable StatedTarget stated = target.map(TargetView::asFormula).orElse(null);
        ReadingTarget held = ReadingTarget.of(stated, reading.quantity(), unit, reference, scale, danger);
        boolean asSet = stated != null && !held.general() && ReadingTarget.isOnScale(stated, unit, reference, scale);
        return asSet
                ? new TargetOnScale(target.flatMap(TargetView::low), target.flatMap(TargetView::high), false)
                : new TargetOnScale(
                        written(held.limits().low()), written(held.limits().high()), held.general());
    }

    ReadingTarget asFormula() {
        return new ReadingTarget(
                new Target(
                        low.map(BigDecimal::doubleValue).orElse(null),
                        high.map(BigDecimal::doubleValue).orElse(null)),
                general);
    }

    private static Optional<BigDecimal> written(@Nullable Double limit) {
        return Optional.ofNullable(limit)
                .map(number -> BigDecimal.valueOf(number).stripTrailingZeros());
    }
}
