package app.tankround.stock.web;

import app.tankround.stock.NewDelivery;
import app.tankround.stock.SupplierOrderId;
import app.tankround.stock.SupplierOrderView;
import app.tankround.web.FieldRefusal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** What came on an order. A bean, since its lines are bound one by one. */
final class DeliveryForm {

    /** What came of one line of the order. */
    static final class Line {

        private @Nullable UUID orderLine;
        private @Nullable Integer packs;
        private @Nullable String lotNumber;
        private @Nullable LocalDate expiresOn;

        public @Nullable UUID getOrderLine() {
            return orderLine;
        }

        public void setOrderLine(@Nullable UUID orderLine) {
            this.orderLine = orderLine;
        }

        public @Nullable Integer getPacks() {
            return packs;
        }

        public void setPacks(@Nullable Integer packs) {
            this.packs = packs;
        }

        public @Nullable String getLotNumber() {
            return lotNumber;
        }

        public void setLotNumber(@Nullable String lotNumber) {
            this.lotNumber = lotNumber;
        }

        public @Nullable LocalDate getExpiresOn() {
            return expiresOn;
        }

        public void setExpiresOn(@Nullable LocalDate expiresOn) {
            this.expiresOn = expiresOn;
        }
    }

    private @Nullable UUID id;
    private @Nullable String noteNumber;
    private @Nullable LocalDate receivedOn;
    private List<Line> lines = new ArrayList<>();

    static DeliveryForm of(UUID id, LocalDate today, SupplierOrderView order) {
        DeliveryForm form = new DeliveryForm();
        form.id = id;
        form.receivedOn = today;
        for (SupplierOrderView.Line ordered : order.lines()) {
            Line line = new Line();
            line.orderLine = ordered.id();
            line.packs = ordered.open();
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

    public @Nullable String getNoteNumber() {
        return noteNumber;
    }

    public void setNoteNumber(@Nullable String noteNumber) {
        this.noteNumber = noteNumber;
    }

    public @Nullable LocalDate getReceivedOn() {
        return receivedOn;
    }

    public void setReceivedOn(@Nullable LocalDate receivedOn) {
        this.receivedOn = receivedOn;
    }

    public List<Line> getLines() {
        return lines;
    }

    public void setLines(List<Line> lines) {
        this.lines = lines;
    }

    /** @throws FieldRefusal if something needed is missing */
    NewDelivery toCommand(SupplierOrderId order) {
        if (id == null || receivedOn == null) {
            throw new FieldRefusal("receivedOn", "stock.choice-missing");
        }
        List<NewDelivery.Line> came = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            Line line = lines.get(i);
            if (line.orderLine == null || line.packs == null) {
                throw new FieldRefusal("lines[" + i + "].packs", "web.number-missing");
            }
            came.add(new NewDelivery.Line(
                    line.orderLine,
                    line.packs,
                    Optional.ofNullable(line.lotNumber),
                    Optional.ofNullable(line.expiresOn)));
        }
        return new NewDelivery(id, order, Objects.requireNonNullElse(noteNumber, ""), receivedOn, came);
    }
}
