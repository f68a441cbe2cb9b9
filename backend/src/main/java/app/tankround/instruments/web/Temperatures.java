package app.tankround.instruments.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.UnitConversions;
import app.tankround.units.UnitSystem;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Temperatures as the business reads them; they are kept in degrees Celsius. */
@Component
class Temperatures {

    /** So many decimals of a degree Celsius keep a tenth of a degree Fahrenheit. */
    private static final int KEPT = 2;

    private final BusinessProfile business;

    Temperatures(BusinessProfile business) {
        this.business = business;
    }

    MeasurementUnit unit() {
        boolean customary = business.find()
                .filter(settings -> settings.unitSystem() == UnitSystem.US_CUSTOMARY)
                .isPresent();
        return customary ? MeasurementUnit.DEGREE_FAHRENHEIT : MeasurementUnit.DEGREE_CELSIUS;
    }

    /** What was typed, in degrees Celsius. */
    @Nullable BigDecimal celsius(@Nullable BigDecimal typed) {
        return typed == null || unit() == MeasurementUnit.DEGREE_CELSIUS
                ? typed
                : converted(typed, unit(), MeasurementUnit.DEGREE_CELSIUS, KEPT);
    }

    /** Such as 25 \u00b0C. */
    String of(BigDecimal celsius, Locale locale) {
        return NumberText.plain(shown(celsius), locale) + "\u00a0" + unit().symbol();
    }

    /** A refusal of a temperature with its value and range as the business reads them. */
    FieldRefusal shown(FieldRefusal refusal) {
        if (unit() == MeasurementUnit.DEGREE_CELSIUS || !refusal.field().endsWith("emperature")) {
            return refusal;
        }
        List<Object> args = new ArrayList<>();
        refusal.args()
                .forEach(arg -> args.add(shown(new BigDecimal(arg.toString())).toPlainString()));
        return new FieldRefusal(refusal.field(), refusal.code(), args.toArray());
    }

    private BigDecimal shown(BigDecimal celsius) {
        return unit() == MeasurementUnit.DEGREE_CELSIUS
                ? celsius
                : converted(celsius, MeasurementUnit.DEGREE_CELSIUS, unit(), 1).stripTrailingZeros();
    }

    private static BigDecimal converted(BigDecimal value, MeasurementUnit from, MeasurementUnit to, int decimals) {
        return BigDecimal.valueOf(UnitConversions.convert(value.doubleValue(), from, to))
                .setScale(decimals, RoundingMode.HALF_EVEN);
    }
}
