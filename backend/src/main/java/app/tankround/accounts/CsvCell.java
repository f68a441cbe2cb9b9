package app.tankround.accounts;

import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Spells values as every {@link CsvTable} spells them, and reads refusals back to columns. */
public final class CsvCell {

    private CsvCell() {}

    /** Text, a number in plain notation, a volume in litres, a date, a flag or a constant; empty for nothing. */
    public static String of(@Nullable Object value) {
        return switch (value) {
            case null -> "";
            case BigDecimal number -> plain(number);
            case Double number -> plain(BigDecimal.valueOf(number));
            case Volume volume -> plain(BigDecimal.valueOf(volume.litres()));
            default -> value.toString();
        };
    }

    private static String plain(BigDecimal number) {
        return number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString();
    }

    /**
     * Does {@code work}, and turns a refusal at a form's field, such as {@code accessNotes}, into one at the column of that
     * name, {@code access_notes}.
     */
    public static <T> T atColumn(Supplier<T> work) {
        try {
            return work.get();
        } catch (CsvRefusal refusal) {
            throw refusal;
        } catch (FieldRefusal refusal) {
            String column =
                    refusal.field().replaceAll("([a-z])([A-Z])", "$1_$2").toLowerCase(Locale.ROOT);
            throw new CsvRefusal(column, refusal.code(), refusal.args().toArray());
        }
    }
}
