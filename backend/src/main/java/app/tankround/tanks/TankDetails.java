package app.tankround.tanks;

import app.tankround.units.Volume;
import app.tankround.web.TextInput;
import org.jspecify.annotations.Nullable;
import org.springframework.data.relational.core.mapping.Column;

/**
 * What is written down about a tank.
 *
 * @param code short and unique among tanks, 1 to 40 characters
 * @param material decides which blade or pad may touch it
 * @param volume of the tank as built, where it is known
 */
public record TankDetails(
        String code,
        @Column("water_system_id") WaterSystemId systemId,
        String name,
        TankMaterial material,
        @Column("volume_l") @Nullable Volume volume) {

    /** @throws app.tankround.web.FieldRefusal naming the field, the refused value and what is accepted */
    public TankDetails {
        code = TextInput.required("code", code, 40);
        name = TextInput.required("name", name, 200);
        if (volume != null) {
            volume = NetVolume.within("volume", volume.litres(), NetVolume.SMALLEST_LITRES);
        }
    }
}
