package app.tankround.accounts;

import app.tankround.units.MeasurementUnit;
import app.tankround.units.UnitConversions;
import app.tankround.units.UnitSystem;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Temperatures as the business reads them; they are kept in degrees Celsius. */
@Component
public class Temperatures {

    /** So many decimals of a degree Celsius keep a tenth of a degree Fahrenheit. */
    private static final int KEPT = 2;

    private static final String CELSIUS = " " + MeasurementUnit.DEGREE_CELSIUS.symbol();

    private final BusinessProfile business;

    Temperatures(BusinessProfile business) {
        this.business = business;
    }

    public MeasurementUnit unit() {
        boolean customary = business.find()
                .filter(settings -> settings.unitSystem() == UnitSystem.US_CUSTOMARY)
                .isPresent();
        return customary ? MeasurementUnit.DEGREE_FAHRENHEIT : MeasurementUnit.DEGREE_CELSIUS;
    }

    /** What was typed, in degrees Celsius. */
    public @Nullable BigDecimal celsius(@Nullable BigDecimal typed) {
        return typed == null || unit() == MeasurementUnit.DEGREE_CELSIUS
                ? typed
                : converted(typed, unit(), MeasurementUnit.DEGREE_CELSIUS, KEPT);
    }

    /** The same, but as it is stored where what was typed is what the form showed of that: rounding changes nothing. */
    public @Nullable BigDecimal celsius(@Nullable BigDecimal typed, Optional<BigDecimal> stored) {
        return typed != null
                        && stored.filter(celsius -> shown(celsius).compareTo(typed) == 0)
                                .isPresent()
                ? stored.get()
                : celsius(typed);
    }

    /** Such as 25 \u00b0C. */
    public String of(BigDecimal celsius, Locale locale) {
        return NumberText.plain(shown(celsius).stripTrailingZeros(), locale) + "\u00a0" + unit().symbol();
    }

    /** A refusal of a temperature with its values and range as the business reads them; other arguments stay. */
    public FieldRefusal shown(FieldRefusal refusal) {
        if (unit() == MeasurementUnit.DEGREE_CELSIUS) {
            return refusal;
        }
        boolean bare = refusal.field().endsWith("emperature");
        Object[] args = refusal.args().stream().map(arg -> shown(arg, bare)).toArray();
        return new FieldRefusal(refusal.field(), refusal.code(), args);
    }

    /** A figure of a field that takes a temperature, or one with its unit. */
    private Object shown(Object arg, boolean bare) {
        String text = arg.toString();
        return text.endsWith(CELSIUS)
                ? shown(new BigDecimal(text.substring(0, text.length() - CELSIUS.length())))
                                .toPlainString()
                        + " " + unit().symbol()
                : bare ? shown(new BigDecimal(text)).toPlainString() : arg;
    }

    /** In the business's unit, in Fahrenheit to a tenth of a degree. */
    public BigDecimal shown(BigDecimal celsius) {
        return unit() == MeasurementUnit.DEGREE_CELSIUS
                ? celsius
                : converted(celsius, MeasurementUnit.DEGREE_CELSIUS, unit(), 1).stripTrailingZeros();
    }

    private static BigDecimal converted(BigDecimal value, MeasurementUnit from, MeasurementUnit to, int decimals) {
        return BigDecimal.valueOf(UnitConversions.convert(value.doubleValue(), from, to))
                .setScale(decimals, RoundingMode.HALF_EVEN);
    }
}
