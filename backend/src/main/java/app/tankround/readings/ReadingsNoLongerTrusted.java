package app.tankround.readings;

import java.util.Set;

/** No decision may rest on these readings any more. Published in the transaction that found out. */
public record ReadingsNoLongerTrusted(Set<ReadingId> readings) {

    public ReadingsNoLongerTrusted {
        readings = Set.copyOf(readings);
    }
}
