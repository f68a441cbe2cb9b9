package app.tankround.tanks;

import app.tankround.web.TextInput;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.springframework.data.relational.core.mapping.Column;

/**
 * What is written down about a device of a system.
 *
 * @param code short and unique among equipment, 1 to 40 characters
 * @param kind what it is, such as return pump, heater or skimmer
 * @param name make and model, or where it hangs
 */
public record EquipmentDetails(
        String code,
        @Column("water_system_id") WaterSystemId systemId,
        String kind,
        String name,
        @Nullable LocalDate installedOn,
        @Nullable String notes) {

    /** @throws app.tankround.web.FieldRefusal naming the field, the refused value and what is accepted */
    public EquipmentDetails {
        code = TextInput.required("code", code, 40);
        kind = TextInput.required("kind", kind, 100);
        name = TextInput.required("name", name, 200);
        installedOn = Days.optional("installedOn", installedOn);
        notes = TextInput.lines("notes", notes, 4000);
    }
}
