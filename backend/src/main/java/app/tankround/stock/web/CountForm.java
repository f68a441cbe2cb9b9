package app.tankround.stock.web;

import app.tankround.stock.StockCount;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The count of everything on the shelf. A bean, since its lines are bound one by one. */
final class CountForm {

    /** One line of the count. */
    static final class Line {

        private @Nullable StockItemId id;
        private @Nullable BigDecimal expected;
        private @Nullable BigDecimal onHand;

        public @Nullable StockItemId getId() {
            return id;
        }

        public void setId(@Nullable StockItemId id) {
            this.id = id;
        }

        public @Nullable BigDecimal getExpected() {
            return expected;
        }

        public void setExpected(@Nullable BigDecimal expected) {
            this.expected = expected;
        }

        public @Nullable BigDecimal getOnHand() {
            return onHand;
        }

        public void setOnHand(@Nullable BigDecimal onHand) {
            this.onHand = onHand;
        }
    }

    private List<Line> counts = new ArrayList<>();

    static CountForm of(List<StockItemView> items) {
        CountForm form = new CountForm();
        for (StockItemView item : items) {
            Line line = new Line();
            line.setId(item.id());
            BigDecimal onHand = item.onHand().stripTrailingZeros();
            line.setExpected(item.onHand());
            line.setOnHand(onHand.setScale(Math.max(0, onHand.scale())));
            form.counts.add(line);
        }
        return form;
    }

    public List<Line> getCounts() {
        return counts;
    }

    public void setCounts(List<Line> counts) {
        this.counts = counts;
    }

    /** @throws FieldRefusal if a number is missing */
    List<StockCount> toCommand() {
        List<StockCount> command = new ArrayList<>();
        for (int i = 0; i < counts.size(); i++) {
            Line line = counts.get(i);
            if (line.id == null || line.expected == null || line.onHand == null) {
                throw new FieldRefusal("counts[" + i + "].onHand", "web.number-missing");
            }
            command.add(new StockCount(line.id, line.expected, line.onHand));
        }
        return command;
    }
}
