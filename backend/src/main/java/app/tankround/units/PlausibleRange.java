package app.tankround.units;

import java.math.BigDecimal;

/**
 * The values that a quantity in some unit can have in aquarium practice; both ends are accepted.
 *
 * @param farOff how far from a standard's value an instrument's reading may be before somebody is asked to look again
 */
public record PlausibleRange(BigDecimal low, BigDecimal high, BigDecimal farOff) {

    public boolean contains(BigDecimal value) {
        return value.compareTo(low) >= 0 && value.compareTo(high) <= 0;
    }
}
