package app.tankround.readings;

import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.util.Optional;

/** A matter that stays open until something is measured again. */
public record RetestMatter(WaterSystemId system, Quantity quantity) {

    private static final String TOPIC = "reading-repeat";

    /** What a topic asks to have measured again; empty for any other matter. */
    public static Optional<RetestMatter> of(String topic) {
        String[] parts = topic.split(":", 4);
        return parts.length >= 3 && parts[0].equals(TOPIC)
                ? Optional.of(new RetestMatter(WaterSystemId.parse(parts[1]), Quantity.valueOf(parts[2])))
                : Optional.empty();
    }

    static String topic(ReadingView reading) {
        return TOPIC + ":" + reading.systemId() + ":" + reading.quantity()
                + reading.samplePointId().map(point -> ":" + point).orElse("");
    }
}
