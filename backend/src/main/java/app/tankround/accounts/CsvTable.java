package app.tankround.accounts;

import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/**
 * One file of the CSV exchange. Each module keeps the files of what it owns; rows are linked by their {@code code}.
 *
 * <p>What {@link #rows} writes, {@link #apply} must take back to the same state, so that export, import into an empty
 * installation and export give equal bytes: numbers in plain notation with a point, dates and times as ISO 8601,
 * {@code true} and {@code false}, an empty field for what is absent, rows sorted.
 */
public interface CsvTable {

    /** The file's name without {@code .csv}. */
    String name();

    /** Files are applied in this order, so that a row finds what it refers to. */
    int order();

    /** The header, in order. */
    List<String> columns();

    /** Those of the columns that files written by an earlier version may lack; a field that is not there is absent. */
    default Set<String> laterColumns() {
        return Set.of();
    }

    /** All rows in their canonical order and spelling. */
    Stream<List<String>> rows();

    /**
     * Adds or changes what the row describes. A row that is absent from the file deletes nothing.
     *
     * @throws CsvRefusal or {@link app.tankround.web.FieldRefusal} whose field is the column
     */
    CsvOutcome apply(CsvRow row);
}
