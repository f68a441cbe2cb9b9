package app.tankround.web;

import app.tankround.units.Mass;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** Numbers of forms in the units that the business reads: litres, kg and cm, or US gallons, pounds and inches. */
public record ShownMeasures(boolean customary) {

    private static final double CENTIMETRES_PER_INCH = 2.54;
    private static final int DECIMALS = 3;
    private static final MathContext DIGITS = new MathContext(7, RoundingMode.HALF_EVEN);

    public static ShownMeasures of(UnitSystem units) {
        return new ShownMeasures(units == UnitSystem.US_CUSTOMARY);
    }

    public String volumeUnit() {
        return customary ? "gal" : "L";
    }

    public String massUnit() {
        return customary ? "lb" : "kg";
    }

    public String lengthUnit() {
        return customary ? "in" : "cm";
    }

    public BigDecimal shownVolume(double litres) {
        return shown(customary ? Volume.ofLitres(litres).inUsGallons() : litres);
    }

    public BigDecimal shownMass(double kilograms) {
        return shown(customary ? Mass.ofKilograms(kilograms).inPounds() : kilograms);
    }

    public BigDecimal shownLength(double centimetres) {
        return shown(customary ? centimetres / CENTIMETRES_PER_INCH : centimetres);
    }

    public double litres(BigDecimal shown) {
        return customary ? rounded(Volume.ofUsGallons(shown.doubleValue()).litres()) : shown.doubleValue();
    }

    public double kilograms(BigDecimal shown) {
        return customary ? rounded(Mass.ofPounds(shown.doubleValue()).kilograms()) : shown.doubleValue();
    }

    public double centimetres(BigDecimal shown) {
        return customary ? rounded(shown.doubleValue() * CENTIMETRES_PER_INCH) : shown.doubleValue();
    }

    private static BigDecimal shown(double number) {
        return new BigDecimal(BigDecimal.valueOf(number)
                .setScale(DECIMALS, RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString());
    }

    private static double rounded(double number) {
        return BigDecimal.valueOf(number).round(DIGITS).doubleValue();
    }
}
