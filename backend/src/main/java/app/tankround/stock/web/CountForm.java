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
        private int version;
        private @Nullable BigDecimal onHand;

        public @Nullable StockItemId getId() {
            return id;
        }

        public void setId(@Nullable StockItemId id) {
            this.id = id;
        }

        public int getVersion() {
            return version;
        }

        public void setVersion(int version) {
            this.version = version;
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
            line.setVersion(item.version());
            line.setOnHand(item.onHand());
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
            if (line.id == null || line.onHand == null) {
                throw new FieldRefusal("counts[" + i + "].onHand", "web.number-missing");
            }
            command.add(new StockCount(line.id, line.version, line.onHand));
        }
        return command;
    }
}
