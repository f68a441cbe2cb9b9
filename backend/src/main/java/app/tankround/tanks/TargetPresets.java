package app.tankround.tanks;

import static app.tankround.units.MeasurementUnit.*;
import static app.tankround.units.Quantity.*;

import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Usual targets to start a new system with; they become the system's own and are edited there. All of them common
 * practice, no source; none is veterinary advice.
 *
 * <p>Calcium and magnesium are meant at a practical salinity of 35: half the salt, half the calcium.
 */
public final class TargetPresets {

    private TargetPresets() {}

    /** The usual targets of a kind of system, in the order in which a page lists them. */
    public static List<TargetRange> of(SystemKind kind) {
        return switch (kind) {
            case REEF ->
                start().add(TEMPERATURE, "24", "27", DEGREE_CELSIUS)
                        .add(SALINITY, "34", "36", PRACTICAL_SALINITY)
                        .add(PH, "7.9", "8.4", PH_UNIT)
                        .add(ALKALINITY, "7", "11", DEGREE_CARBONATE_HARDNESS)
                        .add(CALCIUM, "380", "450", MILLIGRAMS_PER_LITRE)
                        .add(MAGNESIUM, "1250", "1400", MILLIGRAMS_PER_LITRE)
                        .noAmmoniaNoNitrite()
                        .add(NITRATE, "1", "15", MILLIGRAMS_PER_LITRE)
                        .add(PHOSPHATE, "0.02", "0.1", MILLIGRAMS_PER_LITRE)
                        .done();
            case FISH_ONLY ->
                start().add(TEMPERATURE, "23", "27", DEGREE_CELSIUS)
                        .add(SALINITY, "30", "35", PRACTICAL_SALINITY)
                        .add(PH, "7.9", "8.4", PH_UNIT)
                        .add(ALKALINITY, "7", "12", DEGREE_CARBONATE_HARDNESS)
                        .add(CALCIUM, "350", null, MILLIGRAMS_PER_LITRE)
                        .add(MAGNESIUM, "1150", null, MILLIGRAMS_PER_LITRE)
                        .noAmmoniaNoNitrite()
                        .add(NITRATE, null, "40", MILLIGRAMS_PER_LITRE)
                        .add(PHOSPHATE, null, "0.5", MILLIGRAMS_PER_LITRE)
                        .done();
            case FRESHWATER -> fresh("23", "27", "6.5", "7.6", "3", "8", "4", "12", null, "40");
            case COLDWATER -> fresh("10", "22", "6.8", "8", "4", "10", "6", "16", null, "40");
            case PLANTED -> {
                List<TargetRange> planted =
                        new ArrayList<>(fresh("22", "26", "6.2", "7.4", "2", "6", "3", "8", "5", "25"));
                planted.add(TargetRange.of(PHOSPHATE, "0.1", "2", MILLIGRAMS_PER_LITRE));
                yield List.copyOf(planted);
            }
            case TANGANYIKA -> fresh("24", "27", "8.3", "9", "10", "18", "10", "20", null, "25");
            case MALAWI -> fresh("24", "27", "7.6", "8.6", "6", "12", "6", "14", null, "25");
            case BRACKISH -> {
                List<TargetRange> brackish = new ArrayList<>();
                brackish.add(TargetRange.of(TEMPERATURE, "23", "27", DEGREE_CELSIUS));
                brackish.add(TargetRange.ofGravity("1.003", "1.012", "20/20"));
                brackish.addAll(start().add(PH, "7.5", "8.4", PH_UNIT)
                        .add(ALKALINITY, "5", "12", DEGREE_CARBONATE_HARDNESS)
                        .noAmmoniaNoNitrite()
                        .add(NITRATE, null, "40", MILLIGRAMS_PER_LITRE)
                        .done());
                yield List.copyOf(brackish);
            }
            // The temperature stays that of the display the fish came from, so none is set here.
            case HYPOSALINITY ->
                start().add(SALINITY, "11", "13", PRACTICAL_SALINITY)
                        .add(PH, "7.9", "8.4", PH_UNIT)
                        .add(ALKALINITY, "6", "12", DEGREE_CARBONATE_HARDNESS)
                        .noAmmoniaNoNitrite()
                        .add(NITRATE, null, "40", MILLIGRAMS_PER_LITRE)
                        .done();
            // Cold slows the animals and keeps oxygen in; which end of the range suits depends on the species.
            case LIVE_SEAFOOD ->
                start().add(TEMPERATURE, "2", "10", DEGREE_CELSIUS)
                        .add(SALINITY, "30", "35", PRACTICAL_SALINITY)
                        .add(PH, "7.6", "8.4", PH_UNIT)
                        .add(ALKALINITY, "6", "12", DEGREE_CARBONATE_HARDNESS)
                        .add(AMMONIA, null, "0.5", MILLIGRAMS_PER_LITRE)
                        .add(NITRITE, null, "0.5", MILLIGRAMS_PER_LITRE)
                        .add(NITRATE, null, "100", MILLIGRAMS_PER_LITRE)
                        .add(OXYGEN, "7", null, MILLIGRAMS_PER_LITRE)
                        .done();
            // Purified water; at 1 to 2 mg/L of dissolved solids the resin is going.
            case SUPPLY ->
                start().add(DISSOLVED_SOLIDS, null, "2", MILLIGRAMS_PER_LITRE)
                        .add(CHLORINE, null, "0", MILLIGRAMS_PER_LITRE)
                        .done();
        };
    }

    private static List<TargetRange> fresh(
            String temperatureLow,
            String temperatureHigh,
            String phLow,
            String phHigh,
            String alkalinityLow,
            String alkalinityHigh,
            String hardnessLow,
            String hardnessHigh,
            @Nullable String nitrateLow,
            String nitrateHigh) {
        return start().add(TEMPERATURE, temperatureLow, temperatureHigh, DEGREE_CELSIUS)
                .add(PH, phLow, phHigh, PH_UNIT)
                .add(ALKALINITY, alkalinityLow, alkalinityHigh, DEGREE_CARBONATE_HARDNESS)
                .add(HARDNESS, hardnessLow, hardnessHigh, DEGREE_GENERAL_HARDNESS)
                .noAmmoniaNoNitrite()
                .add(NITRATE, nitrateLow, nitrateHigh, MILLIGRAMS_PER_LITRE)
                .done();
    }

    private static Rows start() {
        return new Rows(new ArrayList<>());
    }

    private record Rows(List<TargetRange> ranges) {

        Rows add(Quantity quantity, @Nullable String low, @Nullable String high, MeasurementUnit unit) {
            ranges.add(TargetRange.of(quantity, low, high, unit));
            return this;
        }

        Rows noAmmoniaNoNitrite() {
            return add(AMMONIA, null, "0", MILLIGRAMS_PER_LITRE).add(NITRITE, null, "0", MILLIGRAMS_PER_LITRE);
        }

        List<TargetRange> done() {
            return List.copyOf(ranges);
        }
    }
}
