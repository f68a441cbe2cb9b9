package app.tankround.accounts;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/** One row of a CSV file, read column by column; a field that does not fit is refused with its column. */
public final class CsvRow {

    private static final int LONGEST_NUMBER = 24;
    private static final int EARLIEST_YEAR = 1970;
    private static final int LATEST_YEAR = 2099;

    private final Map<String, String> fields;

    /** @param fields by column; an absent value is an empty text */
    public CsvRow(Map<String, String> fields) {
        this.fields = Map.copyOf(fields);
    }

    /** The text of a column, nothing where it is empty. */
    public Optional<String> text(String column) {
        return Optional.of(fields.getOrDefault(column, "").strip()).filter(value -> !value.isEmpty());
    }

    /** @throws CsvRefusal if the field is empty */
    public String required(String column) {
        return text(column).orElseThrow(() -> new CsvRefusal(column, "csv.field-missing"));
    }

    /** A plain decimal number with a point. */
    public Optional<BigDecimal> number(String column) {
        return text(column).map(value -> number(column, value));
    }

    /**
     * One of several in a field.
     *
     * @throws CsvRefusal if it is not a plain decimal number with a point
     */
    public static BigDecimal number(String column, String value) {
        if (value.length() > LONGEST_NUMBER || !value.matches("-?\\d+(\\.\\d+)?")) {
            throw new CsvRefusal(column, "csv.number-malformed", value);
        }
        return new BigDecimal(value);
    }

    public BigDecimal requiredNumber(String column) {
        return number(column).orElseThrow(() -> new CsvRefusal(column, "csv.field-missing"));
    }

    public int requiredWhole(String column) {
        BigDecimal number = requiredNumber(column);
        try {
            return number.intValueExact();
        } catch (ArithmeticException fraction) {
            throw new CsvRefusal(column, "csv.number-not-whole", number.toPlainString());
        }
    }

    public Optional<Integer> whole(String column) {
        return text(column).map(value -> requiredWhole(column));
    }

    /** {@code true} or {@code false}. */
    public boolean flag(String column) {
        String value = required(column);
        return switch (value) {
            case "true" -> true;
            case "false" -> false;
            default -> throw new CsvRefusal(column, "csv.flag-malformed", value);
        };
    }

    /** An ISO 8601 date between 1970 and 2099. */
    public Optional<LocalDate> date(String column) {
        return parsed(column, LocalDate::parse, "csv.date-malformed").map(date -> {
            if (date.getYear() < EARLIEST_YEAR || date.getYear() > LATEST_YEAR) {
                throw new CsvRefusal(column, "csv.date-malformed", date.toString());
            }
            return date;
        });
    }

    public LocalDate requiredDate(String column) {
        return date(column).orElseThrow(() -> new CsvRefusal(column, "csv.field-missing"));
    }

    public Optional<LocalTime> time(String column) {
        return parsed(column, LocalTime::parse, "csv.time-malformed");
    }

    /** An instant such as {@code 2026-11-19T07:02:00Z}. */
    public Optional<Instant> instant(String column) {
        return parsed(column, Instant::parse, "csv.instant-malformed");
    }

    /** One of an enum's constants, spelled as in the code. */
    public <E extends Enum<E>> Optional<E> choice(String column, Class<E> type) {
        return text(column)
                .map(value -> Arrays.stream(type.getEnumConstants())
                        .filter(constant -> constant.name().equals(value.toUpperCase(Locale.ROOT)))
                        .findFirst()
                        .orElseThrow(() -> new CsvRefusal(
                                column, "csv.choice-unknown", value, Arrays.toString(type.getEnumConstants()))));
    }

    public <E extends Enum<E>> E requiredChoice(String column, Class<E> type) {
        return choice(column, type).orElseThrow(() -> new CsvRefusal(column, "csv.field-missing"));
    }

    private <T> Optional<T> parsed(String column, Function<String, T> parser, String code) {
        return text(column).map(value -> {
            try {
                return parser.apply(value);
            } catch (DateTimeException malformed) {
                throw new CsvRefusal(column, code, value);
            }
        });
    }
}
