package app.tankround.readings;

import java.util.List;

/** These readings were written down, or replace others. Published in the transaction that keeps them. */
public record ReadingsRecorded(List<ReadingId> readings) {

    public ReadingsRecorded {
        readings = List.copyOf(readings);
    }
}
