package app.tankround.stock.web;

import app.tankround.stock.StockItemId;
import app.tankround.stock.SupplierId;
import app.tankround.stock.SupplierOrderId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** What is ordered from one supplier. A bean, since its lines are bound one by one. */
final class OrderForm {

    /** Packs of one item. */
    static final class Line {

        private @Nullable StockItemId item;
        private @Nullable Integer packs;

        public @Nullable StockItemId getItem() {
            return item;
        }

        public void setItem(@Nullable StockItemId item) {
            this.item = item;
        }

        public @Nullable Integer getPacks() {
            return packs;
        }

        public void setPacks(@Nullable Integer packs) {
            this.packs = packs;
        }
    }

    private @Nullable SupplierOrderId id;
    private @Nullable SupplierId supplier;
    private @Nullable String note;
    private List<Line> lines = new ArrayList<>();

    public @Nullable SupplierOrderId getId() {
        return id;
    }

    public void setId(@Nullable SupplierOrderId id) {
        this.id = id;
    }

    public @Nullable SupplierId getSupplier() {
        return supplier;
    }

    public void setSupplier(@Nullable SupplierId supplier) {
        this.supplier = supplier;
    }

    public @Nullable String getNote() {
        return note;
    }

    public void setNote(@Nullable String note) {
        this.note = note;
    }

    public List<Line> getLines() {
        return lines;
    }

    public void setLines(List<Line> lines) {
        this.lines = lines;
    }

    Map<StockItemId, Integer> packs() {
        Map<StockItemId, Integer> packs = new LinkedHashMap<>();
        for (Line line : lines) {
            if (line.item != null && line.packs != null) {
                packs.put(line.item, line.packs);
            }
        }
        return packs;
    }
}
