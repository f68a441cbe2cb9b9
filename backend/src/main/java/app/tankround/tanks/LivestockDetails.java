package app.tankround.tanks;

import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.springframework.data.relational.core.mapping.Column;

/**
 * What is written down about the animals of one kind in a system.
 *
 * @param code short and unique among livestock, 1 to 40 characters
 * @param quantity how many, 0 to 1,000,000
 * @param addedOn when they went in, where it is known
 * @param willBeEaten whether they are kept to be eaten
 */
public record LivestockDetails(
        String code,
        @Column("water_system_id") WaterSystemId systemId,
        String commonName,
        @Nullable String scientificName,
        int quantity,
        @Nullable LocalDate addedOn,
        boolean willBeEaten) {

    public static final int MOST = 1_000_000;

    /** @throws FieldRefusal naming the field, the refused value and what is accepted */
    public LivestockDetails {
        code = TextInput.required("code", code, 40);
        commonName = TextInput.required("commonName", commonName, 200);
        scientificName = TextInput.optional("scientificName", scientificName, 200);
        if (quantity < 0 || quantity > MOST) {
            throw new FieldRefusal("quantity", "web.number-out-of-range", quantity, 0, MOST);
        }
        addedOn = Days.optional("addedOn", addedOn);
    }

    LivestockDetails withQuantity(int changed) {
        return new LivestockDetails(code, systemId, commonName, scientificName, changed, addedOn, willBeEaten);
    }
}
