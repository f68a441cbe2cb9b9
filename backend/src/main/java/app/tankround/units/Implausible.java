package app.tankround.units;

import java.math.BigDecimal;
import java.util.Optional;

/** A value that is asked back, the range that would have been accepted, and what was likely meant. */
public record Implausible(BigDecimal value, MeasurementUnit unit, PlausibleRange range, Optional<Likely> likely) {

    /** What somebody who typed the refused value may have meant; offered, never assumed. */
    public record Likely(BigDecimal value, MeasurementUnit unit) {}

    /** The code {@code units.value-implausible}, or {@code units.value-implausible-likely} where a meaning can be offered. */
    public String code() {
        return likely.isPresent() ? "units.value-implausible-likely" : "units.value-implausible";
    }

    /** Refused value, lowest and highest accepted, unit; then likely value and its unit, if any. */
    public Object[] args() {
        String refused = value.toPlainString();
        String low = range.low().toPlainString();
        String high = range.high().toPlainString();
        return likely.map(meant -> new Object[] {
                    refused,
                    low,
                    high,
                    unit.symbol(),
                    meant.value().toPlainString(),
                    meant.unit().symbol()
                })
                .orElseGet(() -> new Object[] {refused, low, high, unit.symbol()});
    }
}
