package app.tankround.instruments;

import app.tankround.units.Quantity;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * How long the sample of a kit or photometer takes until it can be read, in seconds.
 *
 * @param shakeSeconds for which it is shaken first, 0 to 600; absent where nobody said so
 * @param waitSeconds for which it then stands, 0 to 7200; likewise
 * @param readWithinSeconds within which it must be read after that, since its colour goes on changing, 1 to 7200; 0 where
 *     nothing presses; likewise
 */
public record KitTimes(
        @Nullable Integer shakeSeconds,
        @Nullable Integer waitSeconds,
        @Nullable Integer readWithinSeconds) {

    static final int LONGEST_SHAKE = 600;
    static final int LONGEST_WAIT = 7200;

    /** Nobody said anything. */
    public static final KitTimes UNSTATED = new KitTimes(null, null, null);

    private static final KitTimes NONE = new KitTimes(0, 0, 0);

    /** What holds where nobody says otherwise: drops are counted at once, chlorine bleaches the colour that it made. */
    private static final KitTimes CHLORINE = new KitTimes(20, 60, 60);

    private static final KitTimes COLOUR = new KitTimes(60, 300, 300);

    /** What is usual where the kit's leaflet is not at hand. Common practice, no source. */
    public static KitTimes usual(InstrumentKind kind, Quantity quantity) {
        if (kind != InstrumentKind.COLOUR_KIT && kind != InstrumentKind.PHOTOMETER) {
            return NONE;
        }
        return switch (quantity) {
            case CHLORINE, FREE_CHLORINE, TOTAL_CHLORINE -> CHLORINE;
            default -> COLOUR;
        };
    }

    /** Every time: as stated, else as usual. */
    public KitTimes orUsual(InstrumentKind kind, Quantity quantity) {
        KitTimes usual = usual(kind, quantity);
        return new KitTimes(
                Objects.requireNonNullElse(shakeSeconds, usual.shakeSeconds),
                Objects.requireNonNullElse(waitSeconds, usual.waitSeconds),
                Objects.requireNonNullElse(readWithinSeconds, usual.readWithinSeconds));
    }
}
