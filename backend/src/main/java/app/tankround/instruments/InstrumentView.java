package app.tankround.instruments;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.TemperatureCompensation;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;

/**
 * An instrument or test kit in the register.
 *
 * @param unit the unit its scale is read in
 * @param gravityReference temperatures of the scale, such as {@code 20/20}; present if and only if the unit is specific gravity
 * @param graduation the liquid a refractometer's scale was drawn for; empty for other kinds
 * @param compensation whether it makes up for temperature by itself; empty if nobody said so or its kind has no such choice
 * @param resolution the finest difference that can be read, in {@code unit}
 * @param permittedError the largest error found at a check with which it still counts as good, in {@code unit}
 * @param rangeLow where its scale begins, in {@code unit}
 * @param rangeHigh where it ends, above {@code rangeLow}
 * @param checkIntervalDays days from one check to the next, 1 to 3660
 * @param times what was stated of them
 * @param holder who carries it
 */
public record InstrumentView(
        InstrumentId id,
        String code,
        String name,
        InstrumentKind kind,
        Quantity quantity,
        MeasurementUnit unit,
        Optional<String> gravityReference,
        Optional<Graduation> graduation,
        Optional<TemperatureCompensation> compensation,
        BigDecimal resolution,
        Optional<BigDecimal> rangeLow,
        Optional<BigDecimal> rangeHigh,
        BigDecimal permittedError,
        int checkIntervalDays,
        KitTimes times,
        Optional<String> lot,
        Optional<LocalDate> expiresOn,
        Optional<LocalDate> purchasedOn,
        Optional<LocalDate> retiredOn,
        Optional<PersonId> holder,
        int version) {

    /** Whether its scale shows a value, as far as anybody said where it begins and ends. */
    public boolean shows(BigDecimal value) {
        return rangeLow.filter(low -> value.compareTo(low) < 0).isEmpty()
                && rangeHigh.filter(high -> value.compareTo(high) > 0).isEmpty();
    }
}
