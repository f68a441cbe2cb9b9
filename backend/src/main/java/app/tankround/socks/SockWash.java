package app.tankround.socks;

import app.tankround.stock.StockItemView;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * A load of socks that is in the machine or drying.
 *
 * @param apart whether they came out of sick systems: washed by themselves, and disinfected
 * @param washedAt when they came out of the machine; empty while they are in it
 */
public record SockWash(UUID id, boolean apart, Instant startedAt, Optional<Instant> washedAt, List<Line> lines) {

    public SockWash {
        lines = List.copyOf(lines);
    }

    /** So many of an item. */
    public record Line(StockItemView item, int count) {}

    public int count() {
        return lines.stream().mapToInt(Line::count).sum();
    }

    public boolean inMachine() {
        return washedAt.isEmpty();
    }
}
