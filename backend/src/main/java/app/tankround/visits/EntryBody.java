package app.tankround.visits;

import app.tankround.web.FieldRefusal;
import app.tankround.web.NumberInput;
import app.tankround.web.NumberRefusal;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.time.format.FormatStyle;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import tools.jackson.databind.JsonNode;

/** Reads the body of an entry; whatever is missing or cannot be is refused at its field. */
final class EntryBody {

    private static final int LONGEST_REASON = 500;

    private final JsonNode body;
    private final Locale locale;

    EntryBody(JsonNode body, Locale locale) {
        this.body = body;
        this.locale = locale;
    }

    /** One line of 1 to {@code longest} characters. */
    String text(String field, int longest) {
        return optionalText(field, longest)
                .map(text -> TextInput.required(field, text, longest))
                .orElseThrow(() -> new FieldRefusal(field, "visits.missing", field));
    }

    /** Lines of text, of {@code longest} characters in all. */
    Optional<String> optionalText(String field, int longest) {
        Optional<String> text = string(field).map(String::strip).filter(found -> !found.isEmpty());
        text.filter(found -> found.length() > longest).ifPresent(found -> {
            throw new FieldRefusal(field, "visits.text-too-long", found.length(), 1, longest);
        });
        return text.map(found -> TextInput.lines(field, found, longest));
    }

    /** As {@link #optionalReason}, of what must be said. */
    String reason(String field) {
        return optionalReason(field).orElseThrow(() -> new FieldRefusal(field, "visits.missing", field));
    }

    /** Why something was done all the same: words, not a sign. */
    Optional<String> optionalReason(String field) {
        return optionalText(field, LONGEST_REASON).map(text -> TextInput.inWords(field, text));
    }

    UUID id(String field) {
        return optionalId(field).orElseThrow(() -> new FieldRefusal(field, "visits.missing", field));
    }

    Optional<UUID> optionalId(String field) {
        return string(field).map(text -> id(field, text));
    }

    /** None where nothing is stated. */
    List<UUID> ids(String field) {
        JsonNode stated = body.path(field);
        if (!stated.isArray() && !stated.isMissingNode() && !stated.isNull()) {
            throw new FieldRefusal(
                    field, "visits.malformed", field, stated.isString() ? stated.stringValue() : stated.toString());
        }
        return StreamSupport.stream(stated.spliterator(), false)
                .map(element -> id(field, element.isString() ? element.stringValue() : element.toString()))
                .toList();
    }

    /** A number as typed, from {@code low} to {@code high}. */
    BigDecimal number(String field, String low, String high) {
        return optionalNumber(field, low, high)
                .orElseThrow(() -> new FieldRefusal(field, "visits.number-missing", low, high));
    }

    Optional<BigDecimal> optionalNumber(String field, String low, String high) {
        return optionalNumber(field).map(number -> {
            boolean outside = number.compareTo(new BigDecimal(low)) < 0 || number.compareTo(new BigDecimal(high)) > 0;
            if (outside) {
                throw new FieldRefusal(field, "visits.number-out-of-range", number.toPlainString(), low, high);
            }
            return number;
        });
    }

    /** A number as typed, of any size. */
    Optional<BigDecimal> optionalNumber(String field) {
        return string(field).filter(text -> !text.isBlank()).map(text -> {
            try {
                return NumberInput.parse(text, locale);
            } catch (NumberRefusal refused) {
                throw new FieldRefusal(field, "web." + refused.code(), refused.typed());
            }
        });
    }

    int whole(String field, int low, int high) {
        BigDecimal number = number(field, Integer.toString(low), Integer.toString(high));
        if (number.stripTrailingZeros().scale() > 0) {
            throw new FieldRefusal(field, "web.number-not-whole", number.toPlainString());
        }
        return number.intValueExact();
    }

    /** Empty where nothing is typed. */
    Optional<Integer> optionalWhole(String field, int low, int high) {
        return optionalNumber(field).map(number -> whole(field, low, high));
    }

    boolean flag(String field) {
        JsonNode value = body.path(field);
        if (value.isMissingNode()) {
            throw new FieldRefusal(field, "visits.missing", field);
        }
        if (!value.isBoolean()) {
            throw new FieldRefusal(
                    field, "visits.not-yes-or-no", value.isString() ? value.stringValue() : value.toString());
        }
        return value.booleanValue();
    }

    /** Whether a flag is there and set. */
    boolean isSet(String field) {
        return !body.path(field).isMissingNode() && flag(field);
    }

    /** Yes or no, where anything was said. */
    Optional<Boolean> optionalFlag(String field) {
        return body.path(field).isMissingNode() ? Optional.empty() : Optional.of(flag(field));
    }

    /** A day such as {@code 2026-11-25}, from {@code first} to {@code last}. */
    Optional<LocalDate> optionalDate(String field, LocalDate first, LocalDate last) {
        return string(field).map(text -> {
            LocalDate day;
            try {
                day = LocalDate.parse(text);
            } catch (DateTimeParseException malformed) {
                throw new FieldRefusal(field, "visits.malformed", field, text);
            }
            if (day.isBefore(first) || day.isAfter(last)) {
                throw new FieldRefusal(field, "web.date-out-of-range", text, first.toString(), last.toString());
            }
            return day;
        });
    }

    /** An hour of a day by the clock on the wall, such as {@code 2026-11-25T16:30}, from {@code first} to {@code last}. */
    Optional<LocalDateTime> optionalTime(String field, LocalDateTime first, LocalDateTime last) {
        return string(field).filter(text -> !text.isBlank()).map(text -> {
            LocalDateTime time;
            try {
                time = LocalDateTime.parse(text);
            } catch (DateTimeParseException malformed) {
                throw new FieldRefusal(field, "visits.malformed", field, text);
            }
            if (time.isBefore(first) || time.isAfter(last)) {
                throw new FieldRefusal(field, "visits.time-out-of-range", spoken(time), spoken(first), spoken(last));
            }
            return time;
        });
    }

    private String spoken(LocalDateTime time) {
        return DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT)
                .withLocale(locale)
                .format(time);
    }

    <E extends Enum<E>> E choice(String field, Class<E> type) {
        String text = text(field, 40);
        return Arrays.stream(type.getEnumConstants())
                .filter(known -> known.name().equals(text))
                .findFirst()
                .orElseThrow(() -> new FieldRefusal(
                        field,
                        "visits.not-a-choice",
                        text,
                        Arrays.stream(type.getEnumConstants()).map(Enum::name).collect(Collectors.joining(", "))));
    }

    String choice(String field, List<String> known) {
        String text = text(field, 40);
        if (!known.contains(text)) {
            throw new FieldRefusal(field, "visits.not-a-choice", text, String.join(", ", known));
        }
        return text;
    }

    private Optional<String> string(String field) {
        JsonNode value = body.path(field);
        if (value.isMissingNode() || value.isNull()) {
            return Optional.empty();
        }
        if (!value.isString()) {
            throw new FieldRefusal(field, "visits.malformed", field, value.toString());
        }
        return Optional.of(value.stringValue());
    }

    private static UUID id(String field, String text) {
        try {
            return UUID.fromString(text);
        } catch (IllegalArgumentException malformed) {
            throw new FieldRefusal(field, "visits.malformed", field, text);
        }
    }
}
