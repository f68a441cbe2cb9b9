package app.tankround.loads.web;

import app.tankround.stock.NewWaterMovement;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Volume;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Water that was moved, as typed.
 *
 * @param id made before the form is shown
 * @param from empty for the membranes
 * @param to empty for drums, {@value #AWAY} for the drain
 * @param litres or US gallons, as the business reads
 */
record WaterMoveForm(
        @Nullable String id,
        @Nullable String from,
        @Nullable String to,
        @Nullable String litres) {

    static final String AWAY = "away";

    private static final MathContext DIGITS = new MathContext(7, RoundingMode.HALF_EVEN);
    private static final BigDecimal MOST = BigDecimal.valueOf(100_000);
    private static final BigDecimal LEAST = new BigDecimal("0.1");

    Optional<NewWaterMovement> toCommand(FormReader reader, boolean customary) {
        UUID made = FormReader.madeWith("water-movement", id);
        Optional<WaterSystemId> source = vat("from", from, reader);
        boolean away = AWAY.equals(to);
        Optional<WaterSystemId> goal = away ? Optional.empty() : vat("to", to, reader);
        if (away && source.isEmpty()) {
            reader.refuse("from", "loads.plant.move.from-missing");
        }
        Optional<BigDecimal> volume = litres(reader, "litres", litres, LEAST, customary);
        return reader.accepted()
                ? volume.map(moved -> away
                        ? NewWaterMovement.away(made, source.orElseThrow(), moved)
                        : new NewWaterMovement(made, source, goal, moved))
                : Optional.empty();
    }

    private static Optional<WaterSystemId> vat(String field, @Nullable String chosen, FormReader reader) {
        return chosen == null || chosen.isBlank()
                ? Optional.empty()
                : reader.id(field, chosen).map(WaterSystemId::of);
    }

    /** A volume in the unit of the business, in litres. */
    static Optional<BigDecimal> litres(
            FormReader reader, String field, @Nullable String typed, BigDecimal least, boolean customary) {
        return reader.requiredNumber(field, typed, least, MOST)
                .map(number -> customary
                        ? new BigDecimal(
                                        Volume.ofUsGallons(number.doubleValue()).litres())
                                .round(DIGITS)
                        : number);
    }
}
