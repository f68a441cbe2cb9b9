package app.tankround.stock;

import java.util.UUID;

/** An order to a supplier. */
public record SupplierOrderId(UUID value) {

    public static SupplierOrderId of(UUID value) {
        return new SupplierOrderId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static SupplierOrderId parse(String text) {
        return new SupplierOrderId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
