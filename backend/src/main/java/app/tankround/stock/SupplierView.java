package app.tankround.stock;

import java.util.Optional;

/**
 * Somebody things are bought from.
 *
 * @param name 1 to 120 characters
 * @param customerNumber what the supplier knows the business by
 * @param leadDays from the order to the delivery on average, 0 to 365
 * @param leadSdDays standard deviation of that, 0 to 365
 * @param orderEveryDays days between two orders, 1 to 365
 */
public record SupplierView(
        SupplierId id,
        String name,
        Optional<String> email,
        Optional<String> phone,
        Optional<String> customerNumber,
        double leadDays,
        double leadSdDays,
        int orderEveryDays,
        int version) {}
