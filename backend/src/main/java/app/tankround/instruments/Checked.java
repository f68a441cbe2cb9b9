package app.tankround.instruments;

import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;

/** The refusals that instruments and standards share. */
final class Checked {

    private static final LocalDate EARLIEST = LocalDate.of(1990, 1, 1);
    private static final int LONGEST_TEXT = 120;
    private static final int LONGEST_NOTE = 500;
    private static final int YEARS_AHEAD = 15;

    private Checked() {}

    static void text(String field, String value) {
        if (value.isBlank()) {
            throw new FieldRefusal(field, "instruments.text-missing");
        }
        if (value.length() > LONGEST_TEXT) {
            throw new FieldRefusal(field, "instruments.text-too-long", value.length(), 1, LONGEST_TEXT);
        }
    }

    /** What somebody adds in words. */
    static void note(String field, String value) {
        if (value.length() > LONGEST_NOTE) {
            throw new FieldRefusal(field, "instruments.text-too-long", value.length(), 1, LONGEST_NOTE);
        }
    }

    /** What everything in the register has: a code of its own, a name, and a unit of its quantity. */
    static void named(String code, String name, boolean codeTaken, Quantity quantity, MeasurementUnit unit) {
        text("code", code);
        text("name", name);
        if (codeTaken) {
            throw new FieldRefusal("code", "instruments.code-taken", code);
        }
        if (!quantity.allows(unit)) {
            throw new FieldRefusal("unit", "instruments.unit-not-of-quantity", unit.symbol());
        }
    }

    /** A day that has been: not before 1990 and not after today. */
    static void past(String field, Optional<LocalDate> day, LocalDate today) {
        within(field, day, today);
    }

    /** A day that may lie ahead, such as the end of a shelf life. */
    static void ahead(String field, Optional<LocalDate> day, LocalDate today) {
        within(field, day, today.plusYears(YEARS_AHEAD));
    }

    private static void within(String field, Optional<LocalDate> day, LocalDate latest) {
        day.filter(d -> d.isBefore(EARLIEST) || d.isAfter(latest)).ifPresent(d -> {
            throw new FieldRefusal(
                    field, "instruments.date-implausible", d.toString(), EARLIEST.toString(), latest.toString());
        });
    }

    /** A number above {@code low}, or equal to it if {@code lowAccepted}, and not above {@code high}. */
    static void number(String field, BigDecimal value, BigDecimal low, boolean lowAccepted, BigDecimal high) {
        int against = value.compareTo(low);
        if (against < 0 || (against == 0 && !lowAccepted) || value.compareTo(high) > 0) {
            throw new FieldRefusal(
                    field,
                    lowAccepted ? "instruments.number-outside" : "instruments.number-outside-above",
                    value.toPlainString(),
                    low.toPlainString(),
                    high.stripTrailingZeros().toPlainString());
        }
    }
}
