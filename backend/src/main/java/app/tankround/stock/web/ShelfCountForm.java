package app.tankround.stock.web;

import app.tankround.stock.StockCount;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** A count along the shelves; what is left empty was not counted. A bean, since its lines are bound one by one. */
final class ShelfCountForm {

    /** One item. */
    static final class Line {

        private @Nullable StockItemId item;
        private @Nullable BigDecimal expected;
        private @Nullable BigDecimal counted;

        public @Nullable StockItemId getItem() {
            return item;
        }

        public void setItem(@Nullable StockItemId item) {
            this.item = item;
        }

        public @Nullable BigDecimal getExpected() {
            return expected;
        }

        public void setExpected(@Nullable BigDecimal expected) {
            this.expected = expected;
        }

        public @Nullable BigDecimal getCounted() {
            return counted;
        }

        public void setCounted(@Nullable BigDecimal counted) {
            this.counted = counted;
        }
    }

    private @Nullable UUID id;
    private List<Line> lines = new ArrayList<>();

    static ShelfCountForm of(UUID id, List<StockItemView> items) {
        ShelfCountForm form = new ShelfCountForm();
        form.id = id;
        for (StockItemView item : items) {
            Line line = new Line();
            line.item = item.id();
            line.expected = item.onHand();
            form.lines.add(line);
        }
        return form;
    }

    public @Nullable UUID getId() {
        return id;
    }

    public void setId(@Nullable UUID id) {
        this.id = id;
    }

    public List<Line> getLines() {
        return lines;
    }

    public void setLines(List<Line> lines) {
        this.lines = lines;
    }

    /** @throws FieldRefusal if nothing was counted */
    List<StockCount> toCommand() {
        List<StockCount> counts = new ArrayList<>();
        for (Line line : lines) {
            if (line.item != null && line.expected != null && line.counted != null) {
                counts.add(new StockCount(line.item, line.expected, line.counted));
            }
        }
        if (counts.isEmpty()) {
            throw new FieldRefusal("", "stock.count.empty");
        }
        return counts;
    }

    /** The field of the line that is the {@code number}th of those counted. */
    String field(String refused) {
        int number = Integer.parseInt(refused.replaceAll("\\D", ""));
        int counted = -1;
        for (int i = 0; i < lines.size(); i++) {
            counted += lines.get(i).counted == null ? 0 : 1;
            if (counted == number) {
                return "lines[" + i + "].counted";
            }
        }
        return "";
    }
}
