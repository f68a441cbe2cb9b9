package app.tankround.reports.servicereport;

import app.tankround.reports.Texts;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the visit found and did at one water system.
 *
 * @param name what the client calls it
 * @param kind such as {@code marine, with reef}
 * @param volume with its unit, such as {@code 640 L}
 * @param readings one line a quantity; empty says that nothing was measured
 * @param meaning what the readings mean, in plain words; may be empty
 * @param doubts one notice for each reading in doubt; may be empty
 * @param done what was done; may be empty
 * @param livestock animals seen and lost; may be empty
 */
public record WaterSystem(
        String name,
        String kind,
        String volume,
        List<ReadingLine> readings,
        List<String> meaning,
        List<DoubtNotice> doubts,
        List<String> done,
        List<LivestockLine> livestock) {

    /**
     * @throws IllegalArgumentException if a name is blank, or if a reading in doubt stands without a notice that
     *     explains it
     */
    public WaterSystem {
        Texts.requireText("name of the water system", name);
        Texts.requireText("kind of the water system", kind);
        Texts.requireText("volume of the water system", volume);
        readings = List.copyOf(readings);
        meaning = List.copyOf(meaning);
        doubts = List.copyOf(doubts);
        done = List.copyOf(done);
        livestock = List.copyOf(livestock);
        if (doubts.isEmpty() && readings.stream().anyMatch(line -> line.now() instanceof Measurement.InDoubt)) {
            throw new IllegalArgumentException("A reading of \"" + name + "\" is in doubt, but no notice explains it");
        }
    }

    /**
     * A line of the table of readings.
     *
     * @param quantity what was measured
     * @param now what this visit found
     * @param before what the visit before found, or {@code null}; a value in doubt shows as such here too
     * @param target the target range with its unit, or {@code null} if there is none
     */
    public record ReadingLine(
            String quantity,
            Measurement now,
            @Nullable Measurement before,
            @Nullable String target) {
        public ReadingLine {
            Measurement.requireReference(Texts.requireText("quantity", quantity));
            if (target != null) {
                Measurement.requireReference(target);
            }
        }
    }

    /**
     * A line of the table of animals; numbers arrive as text, so that {@code about 20} can be said.
     *
     * @param animal which animal
     * @param seen how many were seen
     * @param lost how many were found dead or are missing
     * @param remark or {@code null}
     */
    public record LivestockLine(
            String animal,
            String seen,
            String lost,
            @Nullable String remark) {
        public LivestockLine {
            Texts.requireText("name of the animal", animal);
        }
    }
}
