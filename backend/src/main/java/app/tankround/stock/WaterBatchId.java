package app.tankround.stock;

import java.util.UUID;

/** A batch of water. */
public record WaterBatchId(UUID value) {

    public static WaterBatchId of(UUID value) {
        return new WaterBatchId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static WaterBatchId parse(String text) {
        return new WaterBatchId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
