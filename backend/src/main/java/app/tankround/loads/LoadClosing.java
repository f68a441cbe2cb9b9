package app.tankround.loads;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * A sheet that somebody closed.
 *
 * @param version of the round that it was closed for
 * @param person name of whoever closed it
 */
public record LoadClosing(UUID id, int version, String person, Instant at, List<Line> lines) {

    public LoadClosing {
        lines = List.copyOf(lines);
    }

    /**
     * What became of one line.
     *
     * @param item what it is, in words, with its unit
     * @param loaded from 0 to {@code planned}
     * @param litres of water in what is loaded; empty where it is no water, or was closed before that was kept
     * @param safety whether something could die without it
     * @param person who loaded it; empty where nobody did
     * @param reason why it was left, where it was
     */
    public record Line(
            String key,
            String item,
            BigDecimal planned,
            BigDecimal loaded,
            Optional<BigDecimal> litres,
            boolean safety,
            Optional<String> person,
            Optional<Instant> at,
            Optional<String> instead,
            Optional<String> reason) {

        public boolean isLeft() {
            return loaded.compareTo(planned) < 0;
        }
    }
}
