package app.tankround.purification;

import app.tankround.tanks.WaterSystemId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.springframework.data.relational.core.mapping.Column;

/**
 * What is written down about a stage of a plant. Limits that are missing are the usual ones; those of another kind of
 * stage are dropped.
 *
 * @param name make and size, 1 to 200 characters
 * @param removedOn the day on which it went, none while it runs
 * @param meterLitres what the water meter showed when it went in
 * @param monthsAllowed of a prefilter or carbon, 1 to 120
 * @param dropAllowedKilopascals of a prefilter, 1 to 1000
 * @param litresBetweenTests of the water after carbon, 1 to 10,000,000
 * @param lowestRejection of a membrane, share held back, 0 to 1
 * @param capacityEquivalents of a resin, 0.001 to 10,000
 * @param carbonDioxide after the membrane, which loads the resin unseen, in mg/L, 0 to 200
 */
public record StageDetails(
        @Column("water_system_id") WaterSystemId systemId,
        StageKind kind,
        String name,
        LocalDate installedOn,
        @Nullable LocalDate removedOn,
        @Column("meter_l") @Nullable Double meterLitres,
        @Nullable Integer monthsAllowed,
        @Column("drop_allowed_kpa") @Nullable Double dropAllowedKilopascals,
        @Nullable Double litresBetweenTests,
        @Nullable Double lowestRejection,
        @Column("capacity_eq") @Nullable Double capacityEquivalents,
        @Column("carbon_dioxide_mg_l") @Nullable Double carbonDioxide) {

    static final LocalDate FIRST = LocalDate.of(1990, 1, 1);
    public static final double MOST_LITRES = 100_000_000;

    /** @throws FieldRefusal naming the field, the refused value and what is accepted */
    public StageDetails {
        name = TextInput.required("name", name, 200);
        if (installedOn.isBefore(FIRST)) {
            throw new FieldRefusal("installedOn", "purification.day-too-early", installedOn, FIRST);
        }
        if (removedOn != null && removedOn.isBefore(installedOn)) {
            throw new FieldRefusal("removedOn", "purification.removed-before-installed", removedOn, installedOn);
        }
        meterLitres = within("meter", meterLitres, 0, MOST_LITRES);
        boolean ages = kind == StageKind.PREFILTER || kind == StageKind.CARBON;
        monthsAllowed = ages ? whole("monthsAllowed", monthsAllowed, 1, 120) : null;
        dropAllowedKilopascals =
                kind == StageKind.PREFILTER ? within("dropAllowed", dropAllowedKilopascals, 1, 1000) : null;
        litresBetweenTests =
                kind == StageKind.CARBON ? within("litresBetweenTests", litresBetweenTests, 1, 10_000_000) : null;
        lowestRejection = kind == StageKind.MEMBRANE ? within("lowestRejection", lowestRejection, 0, 1) : null;
        capacityEquivalents = kind == StageKind.RESIN ? within("capacity", capacityEquivalents, 0.001, 10_000) : null;
        carbonDioxide = kind == StageKind.RESIN ? within("carbonDioxide", carbonDioxide, 0, 200) : null;
    }

    private static @Nullable Double within(String field, @Nullable Double value, double low, double high) {
        if (value != null && !(value >= low && value <= high)) {
            throw new FieldRefusal(field, "web.number-out-of-range", value, low, high);
        }
        return value;
    }

    private static @Nullable Integer whole(String field, @Nullable Integer value, int low, int high) {
        if (value != null && (value < low || value > high)) {
            throw new FieldRefusal(field, "web.number-out-of-range", value, low, high);
        }
        return value;
    }
}
