package app.tankround.instruments;

import app.tankround.chemistry.WeighedSolution.Solute;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;

/**
 * What a made-up standard was weighed from.
 *
 * @param soluteGrams what the balance showed of the solute, as it was weighed in
 * @param purityPercent share of the solute in that, 50 to 100; the yield of a mix of sea salts
 * @param purityGiveOrTake half-width of what is known of the purity, in percent, 0 to 20
 * @param waterGrams what the balance showed of the water
 * @param balance that the solute was weighed on
 * @param waterBalance that the water was weighed on; empty if on the same
 */
public record StandardRecipe(
        Solute solute,
        BigDecimal soluteGrams,
        BigDecimal purityPercent,
        BigDecimal purityGiveOrTake,
        BigDecimal waterGrams,
        InstrumentId balance,
        Optional<InstrumentId> waterBalance,
        LocalDate madeOn) {

    /** What such a solution may check. */
    StandardKind standardKind() {
        return switch (solute) {
            case SODIUM_CHLORIDE -> StandardKind.SODIUM_CHLORIDE;
            case SEA_SALT -> StandardKind.SEAWATER;
        };
    }
}
