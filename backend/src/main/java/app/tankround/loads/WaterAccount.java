package app.tankround.loads;

import app.tankround.accounts.DepotView;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * Where the water of a depot came from and went, over some days.
 *
 * @param until the first day after them
 * @param kinds purified water, then salt water
 * @param unclosed rounds whose load nobody closed, so that nobody knows what they took
 */
public record WaterAccount(
        DepotView depot, LocalDate from, LocalDate until, List<OfKind> kinds, List<Source> unclosed) {

    public WaterAccount {
        kinds = List.copyOf(kinds);
        unclosed = List.copyOf(unclosed);
    }

    /** A line of the account. */
    public enum Figure {
        /** In tanks and vats when it began. */
        VATS_BEFORE,
        /** In drums that were filled and not loaded yet. */
        DRUMS_BEFORE,
        /** In drums that came back from rounds. */
        KEPT_BEFORE,
        /** On rounds of which nobody has told the return. */
        OUT_BEFORE,
        /** By the membranes, or as batches. */
        MADE,
        /** Into batches of salt water. */
        MIXED,
        /** At clients' sites, by vans on their way. */
        TAKEN,
        /** Into drums. */
        FILLED,
        /** Into vans. */
        LOADED,
        /** At systems. */
        USED,
        /** Out of vans, into a vat or to wait in its drums. */
        BACK,
        /** Poured away or spilt. */
        AWAY,
        VATS_AFTER,
        DRUMS_AFTER,
        KEPT_AFTER,
        OUT_AFTER,
        /** Vats where something else was seen than was worked out: what is missing there. */
        UNSEEN,
        /** Loaded, although nobody filled so much into drums: counted against what is missing. */
        UNFILLED,
        /** Missing at the return of rounds. */
        UNTOLD
    }

    /**
     * What a figure is made of.
     *
     * @param page where it is told of
     */
    public record Source(String words, double litres, Instant at, String page) {}

    /** A figure with what it is made of, which comes to it. */
    public record Line(Figure figure, double litres, List<Source> sources) {

        public Line {
            sources = List.copyOf(sources);
        }
    }

    /**
     * One kind of water.
     *
     * @param salted purified water else
     * @param said why there is a difference, the last that somebody said of these days
     */
    public record OfKind(boolean salted, List<Line> lines, Optional<Said> said) {

        public OfKind {
            lines = List.copyOf(lines);
        }

        /** Litres of a figure. */
        public double of(Figure figure) {
            return lines.stream()
                    .filter(line -> line.figure() == figure)
                    .mapToDouble(Line::litres)
                    .sum();
        }

        /** Litres that should be there and are not; below 0 where more is there. */
        public double difference() {
            double before =
                    of(Figure.VATS_BEFORE) + of(Figure.DRUMS_BEFORE) + of(Figure.KEPT_BEFORE) + of(Figure.OUT_BEFORE);
            double after =
                    of(Figure.VATS_AFTER) + of(Figure.DRUMS_AFTER) + of(Figure.KEPT_AFTER) + of(Figure.OUT_AFTER);
            return before
                    + of(Figure.MADE)
                    + of(Figure.TAKEN)
                    - of(Figure.MIXED)
                    - of(Figure.USED)
                    - of(Figure.AWAY)
                    - after;
        }

        /** All that went through in these days, which a difference is held against. */
        public double moved() {
            return of(Figure.MADE) + of(Figure.LOADED) + of(Figure.AWAY);
        }
    }

    /** Why there is a difference of so much, as a person said. */
    public record Said(double litres, String reason, String person, Instant at) {}
}
