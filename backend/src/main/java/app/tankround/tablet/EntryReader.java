package app.tankround.tablet;

import app.tankround.web.Entry;
import app.tankround.web.FieldRefusal;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/** Makes an entry of what a device sent. */
final class EntryReader {

    private static final int LONGEST_NAME = 80;
    private static final int LONGEST_FIELD = 300;
    private static final int MOST_DIGITS = 1000;
    private static final int TIME_ORDERED = 7;
    private static final int LAST_YEAR = 9999;

    private EntryReader() {}

    /**
     * @param clockAhead of the device's clock
     * @throws FieldRefusal naming the member that is missing or malformed
     */
    static Entry read(JsonNode sent, UUID author, Duration clockAhead) {
        UUID id = uuid(sent, "id").filter(EntryReader::isTimeOrdered).orElseThrow(() -> malformed(sent, "id"));
        JsonNode sequence = sent.path("sequence");
        if (!sequence.isIntegralNumber() || !sequence.canConvertToLong() || sequence.longValue() < 0) {
            throw malformed(sent, "sequence");
        }
        if (!sent.path("body").isObject()) {
            throw malformed(sent, "body");
        }
        JsonNode base = sent.path("base");
        refuseUnkeepable(sent, "kind", "device", "field", "body", "base");
        return new Entry(
                id,
                text(sent, "kind"),
                uuid(sent, "subject"),
                text(sent, "device"),
                sequence.longValue(),
                sent.has("field") ? Optional.of(text(sent, "field", LONGEST_FIELD)) : Optional.empty(),
                time(sent, "deviceTime"),
                clockAhead,
                base.isMissingNode() || base.isNull() ? Optional.empty() : Optional.of(base),
                sent.path("body"),
                author);
    }

    private static boolean isTimeOrdered(UUID id) {
        return id.version() == TIME_ORDERED && id.variant() == 2;
    }

    private static String text(JsonNode sent, String name) {
        return text(sent, name, LONGEST_NAME);
    }

    private static String text(JsonNode sent, String name, int longest) {
        JsonNode value = sent.path(name);
        if (!value.isString()
                || value.stringValue().isBlank()
                || value.stringValue().length() > longest) {
            throw malformed(sent, name);
        }
        return value.stringValue();
    }

    /** The database keeps neither U+0000, as text or inside JSON, nor a number of more digits than anybody writes. */
    private static void refuseUnkeepable(JsonNode sent, String... names) {
        for (String name : names) {
            if (isUnkeepable(sent.path(name))) {
                throw malformed(sent, name);
            }
        }
    }

    private static boolean isUnkeepable(JsonNode node) {
        if (node.isString()) {
            return node.stringValue().indexOf('\0') >= 0;
        }
        if (node.isBigDecimal()) {
            return Math.abs((long) node.decimalValue().scale()) > MOST_DIGITS;
        }
        return node.propertyNames().stream().anyMatch(name -> name.indexOf('\0') >= 0)
                || node.valueStream().anyMatch(EntryReader::isUnkeepable);
    }

    private static Optional<UUID> uuid(JsonNode sent, String name) {
        JsonNode value = sent.path(name);
        if (value.isMissingNode() || value.isNull()) {
            return Optional.empty();
        }
        try {
            UUID id = UUID.fromString(value.isString() ? value.stringValue() : "");
            if (id.toString().equalsIgnoreCase(value.stringValue())) {
                return Optional.of(id);
            }
        } catch (IllegalArgumentException notAnId) {
            throw malformed(sent, name);
        }
        throw malformed(sent, name);
    }

    /** A timestamp of RFC 3339, whose years have four digits; what is believed of it is the handler's to say. */
    static OffsetDateTime time(JsonNode sent, String name) {
        try {
            OffsetDateTime time = OffsetDateTime.parse(text(sent, name));
            if (time.getYear() < 0 || time.getYear() > LAST_YEAR) {
                throw malformed(sent, name);
            }
            return time;
        } catch (DateTimeException malformed) {
            throw malformed(sent, name);
        }
    }

    private static FieldRefusal malformed(JsonNode sent, String name) {
        String shown = sent.path(name).toString();
        return new FieldRefusal(
                name,
                "tablet.malformed",
                name,
                shown.length() > LONGEST_NAME ? shown.substring(0, LONGEST_NAME) : shown);
    }
}
