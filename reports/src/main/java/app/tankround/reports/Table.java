package app.tankround.reports;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A ruled table. The first cell of every row is the header of the row. The header of the columns is repeated on every
 * page the table reaches.
 *
 * @param columns at least one
 * @param rows cells in the order of the columns
 */
public record Table(List<Column> columns, List<List<Cell>> rows) {

    /** @throws IllegalArgumentException if there is no column, or a row has another number of cells */
    public Table {
        columns = List.copyOf(columns);
        rows = rows.stream().map(List::copyOf).toList();
        if (columns.isEmpty()) {
            throw new IllegalArgumentException("A table needs a column");
        }
        for (List<Cell> row : rows) {
            if (row.size() != columns.size()) {
                throw new IllegalArgumentException(
                        "A row has " + row.size() + " cells, the table " + columns.size() + " columns");
            }
        }
    }

    /** Side on which text stands. */
    public enum Align {
        LEFT,
        RIGHT
    }

    /** How a text is set in a cell. */
    public enum Tone {
        PLAIN,
        STRONG,
        /** For what was and for what is missing. */
        QUIET,
        /** A person is needed. */
        SIGNAL;

        Type type() {
            return switch (this) {
                case PLAIN -> Type.CELL;
                case STRONG -> Type.CELL_STRONG;
                case QUIET -> Type.CELL_QUIET;
                case SIGNAL -> Type.CELL_SIGNAL;
            };
        }
    }

    /** @param weight share of the width, relative to the other columns; above zero */
    public record Column(String header, float weight, Align align) {
        public Column {
            if (!(weight > 0)) {
                throw new IllegalArgumentException("The weight of a column must be above zero, not " + weight);
            }
        }
    }

    /**
     * @param parts texts, each on a line of its own
     * @param drawing to the left of the texts, or {@code null}
     */
    public record Cell(List<Part> parts, @Nullable Drawing drawing) {
        public Cell {
            parts = List.copyOf(parts);
        }

        public static Cell of(String text) {
            return of(text, Tone.PLAIN);
        }

        /** A blank text makes an empty cell. */
        public static Cell of(String text, Tone tone) {
            return new Cell(text.isBlank() ? List.of() : List.of(new Part(text, tone)), null);
        }
    }

    /** A text in a cell. */
    public record Part(String text, Tone tone) {}
}
