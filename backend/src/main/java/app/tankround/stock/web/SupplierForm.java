package app.tankround.stock.web;

import app.tankround.stock.SupplierId;
import app.tankround.stock.SupplierView;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Somebody things are bought from.
 *
 * @param id made when the form is shown, so that sending it twice adds once
 */
record SupplierForm(
        @Nullable SupplierId id,
        int version,
        @Nullable String name,
        @Nullable String email,
        @Nullable String phone,
        @Nullable String customerNumber,
        @Nullable BigDecimal leadDays,
        @Nullable BigDecimal leadSdDays,
        @Nullable Integer orderEveryDays) {

    static SupplierForm blank(SupplierId id) {
        return new SupplierForm(id, 0, null, null, null, null, null, null, null);
    }

    static SupplierForm of(SupplierView supplier) {
        return new SupplierForm(
                supplier.id(),
                supplier.version(),
                supplier.name(),
                supplier.email().orElse(null),
                supplier.phone().orElse(null),
                supplier.customerNumber().orElse(null),
                plain(supplier.leadDays()),
                plain(supplier.leadSdDays()),
                supplier.orderEveryDays());
    }

    private static BigDecimal plain(double number) {
        return new BigDecimal(BigDecimal.valueOf(number).stripTrailingZeros().toPlainString());
    }

    /** @throws FieldRefusal if something needed is missing */
    SupplierView toCommand(SupplierId which) {
        if (orderEveryDays == null) {
            throw new FieldRefusal("orderEveryDays", "web.number-missing");
        }
        return new SupplierView(
                which,
                Objects.requireNonNullElse(name, ""),
                Optional.ofNullable(email),
                Optional.ofNullable(phone),
                Optional.ofNullable(customerNumber),
                needed("leadDays", leadDays),
                needed("leadSdDays", leadSdDays),
                orderEveryDays,
                version);
    }

    private static double needed(String field, @Nullable BigDecimal number) {
        if (number == null) {
            throw new FieldRefusal(field, "web.number-missing");
        }
        return number.doubleValue();
    }
}
