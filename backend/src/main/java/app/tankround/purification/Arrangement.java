package app.tankround.purification;

import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.WaterSystemId;
import java.util.Map;
import java.util.Set;

/**
 * Where the sample points of a plant are, and which other systems are filled from it.
 *
 * @param places points that nobody placed are missing
 */
public record Arrangement(Map<SamplePointId, Place> places, Set<WaterSystemId> containers) {

    public Arrangement {
        places = Map.copyOf(places);
        containers = Set.copyOf(containers);
    }
}
