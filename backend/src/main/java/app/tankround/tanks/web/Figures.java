package app.tankround.tanks.web;

import app.tankround.accounts.Days;
import app.tankround.tanks.TargetView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Temperature;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;

/** Writes and reads volumes, temperatures and days in the units of the business and the locale of the person. */
public record Figures(UnitSystem units, Locale locale) {

    private static final int VOLUME_DECIMALS = 3;
    private static final int TEMPERATURE_DECIMALS = 4;

    /** {@code L} or {@code gal}. */
    public String volumeUnit() {
        return units == UnitSystem.US_CUSTOMARY ? "gal" : "L";
    }

    /** The volume's number in the business's unit as a form's field shows it, to three decimals. */
    public String number(Volume volume) {
        return plain(BigDecimal.valueOf(inShownUnit(volume)), VOLUME_DECIMALS);
    }

    /** Number and unit for reading; to three significant digits or the whole unit, whichever says more. */
    public String volume(Volume volume) {
        double shown = inShownUnit(volume);
        int decimals = shown >= 100 ? 0 : shown >= 10 ? 1 : 2;
        return plain(BigDecimal.valueOf(shown), decimals) + "\u00a0" + volumeUnit();
    }

    public String litres(double litres) {
        return volume(Volume.ofLitres(litres));
    }

    /** A limit in litres as a number in the business's unit, for what a field accepts. */
    BigDecimal limit(double litres) {
        BigDecimal rounded = BigDecimal.valueOf(inShownUnit(Volume.ofLitres(litres)))
                .setScale(VOLUME_DECIMALS, RoundingMode.HALF_EVEN);
        return new BigDecimal(rounded.stripTrailingZeros().toPlainString());
    }

    /** @param stored kept where the person left the number as it was shown, so that rounding changes nothing */
    Volume volume(BigDecimal typed, Optional<Volume> stored) {
        if (stored.isPresent() && number(stored.get()).equals(plain(typed, VOLUME_DECIMALS))) {
            return stored.get();
        }
        return units == UnitSystem.US_CUSTOMARY
                ? Volume.ofUsGallons(typed.doubleValue())
                : Volume.ofLitres(typed.doubleValue());
    }

    /** The unit in which a target is shown. */
    public MeasurementUnit unit(TargetView target) {
        return target.unit() == MeasurementUnit.DEGREE_CELSIUS && units == UnitSystem.US_CUSTOMARY
                ? MeasurementUnit.DEGREE_FAHRENHEIT
                : target.unit();
    }

    /** A limit of a target in the unit in which it is shown. */
    public String limit(TargetView target, BigDecimal limit) {
        return unit(target) == MeasurementUnit.DEGREE_FAHRENHEIT
                ? plain(
                        BigDecimal.valueOf(
                                Temperature.ofCelsius(limit.doubleValue()).inFahrenheit()),
                        TEMPERATURE_DECIMALS)
                : plain(limit, Math.max(limit.scale(), 0));
    }

    public String low(TargetView target) {
        return target.low().map(limit -> limit(target, limit)).orElse("");
    }

    public String high(TargetView target) {
        return target.high().map(limit -> limit(target, limit)).orElse("");
    }

    public String day(LocalDate day) {
        return Days.day(day, locale);
    }

    private double inShownUnit(Volume volume) {
        return units == UnitSystem.US_CUSTOMARY ? volume.inUsGallons() : volume.litres();
    }

    private String plain(BigDecimal number, int decimals) {
        BigDecimal rounded = number.setScale(decimals, RoundingMode.HALF_EVEN);
        String text = rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
        return NumberText.plain(new BigDecimal(text), locale);
    }
}
