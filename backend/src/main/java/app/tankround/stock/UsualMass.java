package app.tankround.stock;

import app.tankround.units.Mass;
import java.util.OptionalDouble;

/**
 * What a thing weighs that nobody has put into the catalogue yet, so that it still gets a place in the van's sum. All of
 * them common practice, no source, and on the heavy side, since a van too light on paper is the worse mistake.
 */
final class UsualMass {

    /** Solutions of salts run from 1.0 to about 1.3 kg/L. */
    static final double DOSE_KG_PER_LITRE = 1.2;

    /** Carbon and phosphate media, drained, with their bag. */
    static final double MEDIA_KG_PER_LITRE = 0.8;

    static final double MEDIA_PIECE_KG = 0.3;
    static final double SOCK_KG = 0.3;
    static final double TEST_KIT_KG = 0.4;

    private UsualMass() {}

    static Mass of(StockKind kind, double amount, String unit) {
        OptionalDouble kilograms = AmountUnits.convert(amount, unit, "kg");
        if (kilograms.isPresent()) {
            return Mass.ofKilograms(kilograms.getAsDouble());
        }
        OptionalDouble litres = AmountUnits.convert(amount, unit, "L");
        if (litres.isPresent()) {
            double density = kind == StockKind.MEDIA ? MEDIA_KG_PER_LITRE : DOSE_KG_PER_LITRE;
            return Mass.ofKilograms(litres.getAsDouble() * density);
        }
        return Mass.ofKilograms(amount * pieceKg(kind));
    }

    private static double pieceKg(StockKind kind) {
        return switch (kind) {
            case SOCK -> SOCK_KG;
            case TEST_KIT -> TEST_KIT_KG;
            case SALT, MEDIA, DOSE -> MEDIA_PIECE_KG;
        };
    }
}
