package app.tankround.visits;

import app.tankround.persistence.Sha256;
import java.util.HexFormat;
import java.util.List;

/**
 * What a client signs for, as the report words it: what was measured and done at one visit, and nothing else that the
 * business knows.
 *
 * @param title heading, such as {@code Your aquarium on 19 November}
 * @param date day of the visit with its times
 * @param summary the news in short sentences
 * @param siteWork what was done for the site as a whole
 */
public record VisitInWords(
        String title,
        String business,
        String code,
        String client,
        String site,
        String date,
        String technician,
        List<String> summary,
        List<SystemInWords> systems,
        List<String> siteWork) {

    public VisitInWords {
        summary = List.copyOf(summary);
        systems = List.copyOf(systems);
        siteWork = List.copyOf(siteWork);
    }

    /**
     * @param meaning what the readings mean, and what is known of those that are not trusted
     * @param animals a line for each kind of animal
     */
    public record SystemInWords(
            String name, List<ReadingInWords> readings, List<String> meaning, List<String> done, List<String> animals) {

        public SystemInWords {
            readings = List.copyOf(readings);
            meaning = List.copyOf(meaning);
            done = List.copyOf(done);
            animals = List.copyOf(animals);
        }

        /** Whether there is nothing to tell of it. */
        public boolean isEmpty() {
            return readings.isEmpty() && meaning.isEmpty() && done.isEmpty() && animals.isEmpty();
        }
    }

    /**
     * @param value as it was read, with its unit; why not, where nothing was
     * @param standing how that stands against the target; empty where nothing was read
     */
    public record ReadingInWords(String quantity, String value, String standing) {}

    /** SHA-256 of every word of it, 64 hexadecimal digits: the same exactly where the same was shown. */
    public String fingerprint() {
        return HexFormat.of().formatHex(Sha256.of(toString()));
    }
}
