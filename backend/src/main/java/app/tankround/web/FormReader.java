package app.tankround.web;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.validation.BindingResult;

/**
 * Reads the texts of a form and shows every refusal at its field, so that a person sees all that is wrong at once and
 * what was typed stays as it was typed.
 */
public final class FormReader {

    private final BindingResult result;
    private final Locale locale;

    public FormReader(BindingResult result, Locale locale) {
        this.result = result;
        this.locale = locale;
    }

    /** Whether everything read so far was accepted. */
    public boolean accepted() {
        return !result.hasErrors();
    }

    /** What {@code work} makes, or nothing after showing why it was refused. */
    public <T> Optional<T> read(Supplier<T> work) {
        try {
            return Optional.of(work.get());
        } catch (FieldRefusal refusal) {
            refuse(refusal.field(), refusal.code(), refusal.args().toArray());
            return Optional.empty();
        }
    }

    /** A number that may be missing; also empty after a refusal, which is then shown. */
    public Optional<BigDecimal> number(String field, @Nullable String text) {
        if (text == null || text.isBlank()) {
            return Optional.empty();
        }
        try {
            return Optional.of(NumberInput.parse(text, locale));
        } catch (NumberRefusal refusal) {
            refuse(field, "web." + refusal.code(), refusal.typed());
            return Optional.empty();
        }
    }

    /** A number within a range. */
    public Optional<BigDecimal> number(String field, @Nullable String text, BigDecimal low, BigDecimal high) {
        return number(field, text).filter(number -> {
            boolean within = number.compareTo(low) >= 0 && number.compareTo(high) <= 0;
            if (!within) {
                refuse(field, "web.number-out-of-range", number, low, high);
            }
            return within;
        });
    }

    /** A number within a range that must be there. */
    public Optional<BigDecimal> requiredNumber(String field, @Nullable String text, BigDecimal low, BigDecimal high) {
        if (text == null || text.isBlank()) {
            refuse(field, "web.number-needed", low, high);
            return Optional.empty();
        }
        return number(field, text, low, high);
    }

    /** A whole number within a range that must be there. */
    public Optional<Integer> requiredWhole(String field, @Nullable String text, int low, int high) {
        return requiredNumber(field, text, BigDecimal.valueOf(low), BigDecimal.valueOf(high))
                .filter(number -> {
                    boolean whole = number.stripTrailingZeros().scale() <= 0;
                    if (!whole) {
                        refuse(field, "web.number-not-whole", number, low, high);
                    }
                    return whole;
                })
                .map(BigDecimal::intValueExact);
    }

    /** A day as a date field sends it, such as {@code 2026-11-25}; may be missing. */
    public Optional<LocalDate> date(String field, @Nullable String text, LocalDate first, LocalDate last) {
        if (text == null || text.isBlank()) {
            return Optional.empty();
        }
        String typed = text.strip();
        LocalDate day;
        try {
            // ISO 8601 wants a sign before a year of five digits; with it, the refusal can name the year as a year.
            day = LocalDate.parse(typed.matches("\\d{5,9}-.*") ? "+" + typed : typed);
        } catch (DateTimeParseException malformed) {
            refuse(field, "web.date-malformed", typed, first.toString(), last.toString());
            return Optional.empty();
        }
        if (day.isBefore(first) || day.isAfter(last)) {
            refuse(field, "web.date-out-of-range", typed, first.toString(), last.toString());
            return Optional.empty();
        }
        return Optional.of(day);
    }

    /** A day that must be there. */
    public Optional<LocalDate> requiredDate(String field, @Nullable String text, LocalDate first, LocalDate last) {
        if (text == null || text.isBlank()) {
            refuse(field, "web.date-needed", first.toString(), last.toString());
            return Optional.empty();
        }
        return date(field, text, first, last);
    }

    /** A time of day such as {@code 14:30}; may be missing. */
    public Optional<LocalTime> time(String field, @Nullable String text) {
        if (text == null || text.isBlank()) {
            return Optional.empty();
        }
        try {
            return Optional.of(LocalTime.parse(text.strip()));
        } catch (DateTimeParseException malformed) {
            refuse(field, "web.time-malformed", text.strip());
            return Optional.empty();
        }
    }

    /** One of an enum's constants by name, as a select field sends it. */
    public <E extends Enum<E>> Optional<E> choice(String field, @Nullable String text, Class<E> type) {
        Optional<E> chosen = Arrays.stream(type.getEnumConstants())
                .filter(constant -> constant.name().equals(text))
                .findFirst();
        if (chosen.isEmpty()) {
            refuse(field, "web.choice-needed", text == null ? "" : text);
        }
        return chosen;
    }

    /** The id that a select field or a hidden field sends. */
    public Optional<UUID> id(String field, @Nullable String text) {
        try {
            return Optional.of(UUID.fromString(text == null ? "" : text));
        } catch (IllegalArgumentException malformed) {
            refuse(field, "web.choice-needed", text == null ? "" : text);
            return Optional.empty();
        }
    }

    /**
     * The id that a form was made with. No person types it, so there is no field to show a refusal at.
     *
     * @throws NotFound if it is none
     */
    public static UUID madeWith(String kind, @Nullable String text) {
        try {
            return UUID.fromString(text == null ? "" : text);
        } catch (IllegalArgumentException malformed) {
            throw new NotFound(kind, text == null ? "" : text);
        }
    }

    /** Shows a refusal at its field; numbers are written out in full, as the person would type them. */
    public void refuse(String field, String code, Object... args) {
        Object[] written = Arrays.stream(args).map(this::written).toArray();
        new FieldRefusal(field, code, written).into(result);
    }

    private Object written(Object value) {
        if (value instanceof BigDecimal number) {
            return NumberText.plain(number, locale);
        }
        if (value instanceof Double number && Double.isFinite(number)) {
            return NumberText.plain(new BigDecimal(BigDecimal.valueOf(number).toPlainString()), locale);
        }
        return value.toString();
    }
}
