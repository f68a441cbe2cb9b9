package app.tankround.loads;

import app.tankround.rounds.RoundView;
import app.tankround.units.Salinity;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * What went out with a round, what visits used of it, and what came back so far.
 *
 * @param closed whether the sheet was closed: else nobody said what went out
 * @param open names of the sites whose visits are not finished, so that nothing is known of what they used
 * @param things what can come back
 * @param told returns so far, the oldest first
 */
public record ReturnSheet(RoundView round, boolean closed, List<String> open, List<Thing> things, List<Told> told) {

    public ReturnSheet {
        open = List.copyOf(open);
        things = List.copyOf(things);
        told = List.copyOf(told);
    }

    /**
     * One thing, whatever it was loaded in.
     *
     * @param key names it, such as {@code sock:100}
     * @param item in words
     * @param unit of all amounts; litres of water
     * @param loaded what went out
     * @param used by visits, as they said
     * @param settled what earlier returns told of, a difference among it
     * @param uses what each system used of it, in the order of the round
     */
    public record Thing(
            String key,
            LoadText item,
            LoadUnit unit,
            BigDecimal loaded,
            BigDecimal used,
            BigDecimal settled,
            List<Use> uses) {

        public Thing {
            uses = List.copyOf(uses);
        }

        /** Whether it is water. */
        public boolean isWater() {
            return unit == LoadUnit.LITRE && LineKey.of(key).isWater();
        }

        /** Whether it was for one system alone, which is sick: nothing of it may go anywhere else. */
        public boolean isApart() {
            return LineKey.isApart(key);
        }

        /** Of salt water; empty of anything else. */
        public Optional<Salinity> salinity() {
            return LineKey.of(key).salinity();
        }

        /** What should be left in the van; nothing where visits used more than was loaded. */
        public BigDecimal left() {
            return balance().max(BigDecimal.ZERO);
        }

        /** The same, below 0 where visits used more than was loaded. */
        BigDecimal balance() {
            return loaded.subtract(used).subtract(settled);
        }
    }

    /**
     * What one system used.
     *
     * @param asPlanned whether nobody said how much, so that what was planned stands for it
     */
    public record Use(int position, String siteName, String systemName, BigDecimal amount, boolean asPlanned) {}

    /** What somebody told of a return. */
    public record Told(UUID id, String person, Instant at, List<Line> lines) {

        public Told {
            lines = List.copyOf(lines);
        }
    }

    /**
     * What became of water that is back.
     *
     * @param what KEPT, AWAY or VAT
     * @param vat its name; empty where it went into none
     */
    public record Goes(String what, String vat) {}

    /**
     * What was told of one thing.
     *
     * @param item in words, with its unit
     * @param reason why it is not what it should be
     * @param goes of water that is back, what became of it
     */
    public record Line(
            String key,
            String item,
            LoadUnit unit,
            BigDecimal loaded,
            BigDecimal used,
            BigDecimal settled,
            BigDecimal back,
            BigDecimal stays,
            BigDecimal wasted,
            BigDecimal broken,
            Optional<String> reason,
            Optional<Goes> goes) {

        /** What nobody knows where it is; below 0 where there was more than there should be. */
        public BigDecimal missing() {
            return loaded.subtract(used)
                    .subtract(settled)
                    .subtract(back)
                    .subtract(stays)
                    .subtract(wasted)
                    .subtract(broken);
        }
    }
}
