package app.tankround.tanks;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * Animals going into a system. The id is made before the form is shown, so that sending it twice adds once.
 *
 * @param on the day they go in
 */
public record NewLivestock(
        LivestockId id,
        WaterSystemId systemId,
        String code,
        String commonName,
        @Nullable String scientificName,
        int quantity,
        boolean willBeEaten,
        LocalDate on) {

    LivestockDetails details() {
        return new LivestockDetails(code, systemId, commonName, scientificName, quantity, on, willBeEaten);
    }
}
