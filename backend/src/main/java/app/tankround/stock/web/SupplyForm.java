package app.tankround.stock.web;

import app.tankround.stock.StockItemId;
import app.tankround.stock.StockSupply;
import app.tankround.stock.SupplierId;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * How an item is bought.
 *
 * @param serviceLevel in percent
 */
record SupplyForm(
        int version,
        @Nullable SupplierId supplier,
        @Nullable String supplierCode,
        @Nullable String packName,
        @Nullable BigDecimal packAmount,
        @Nullable BigDecimal packPrice,
        @Nullable BigDecimal serviceLevel,
        @Nullable BigDecimal weeklyUse) {

    private static final BigDecimal USUAL_LEVEL = new BigDecimal("95");
    private static final int PERCENT_DIGITS = 2;

    static SupplyForm blank() {
        return new SupplyForm(0, null, null, null, null, null, USUAL_LEVEL, null);
    }

    static SupplyForm of(StockSupply supply) {
        return new SupplyForm(
                supply.version(),
                supply.supplier(),
                supply.supplierCode().orElse(null),
                supply.packName(),
                supply.packAmount(),
                supply.packPrice().orElse(null),
                new BigDecimal(BigDecimal.valueOf(supply.serviceLevel())
                        .movePointRight(PERCENT_DIGITS)
                        .stripTrailingZeros()
                        .toPlainString()),
                supply.weeklyUse().orElse(null));
    }

    /** @throws FieldRefusal if something needed is missing */
    StockSupply toCommand(StockItemId item) {
        if (supplier == null) {
            throw new FieldRefusal("supplier", "stock.choice-missing");
        }
        return new StockSupply(
                item,
                supplier,
                Optional.ofNullable(supplierCode),
                Objects.requireNonNullElse(packName, ""),
                needed("packAmount", packAmount),
                Optional.ofNullable(packPrice),
                needed("serviceLevel", serviceLevel)
                        .movePointLeft(PERCENT_DIGITS)
                        .doubleValue(),
                Optional.ofNullable(weeklyUse),
                version);
    }

    private static BigDecimal needed(String field, @Nullable BigDecimal number) {
        if (number == null) {
            throw new FieldRefusal(field, "web.number-missing");
        }
        return number;
    }
}
