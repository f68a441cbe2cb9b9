package app.tankround.stock;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * How an item is bought.
 *
 * @param packName as bought, such as bucket; 1 to 60 characters
 * @param packAmount units of the item in one pack, above 0, up to 100,000
 * @param packPrice of one pack, 0 to 1,000,000, in the business's currency
 * @param serviceLevel probability of not running out until the next delivery, 0.5 up to, but not including, 1
 * @param weeklyUse units a week as somebody said, 0 to 1,000,000; used while the ledger tells too little
 */
public record StockSupply(
        StockItemId item,
        SupplierId supplier,
        Optional<String> supplierCode,
        String packName,
        BigDecimal packAmount,
        Optional<BigDecimal> packPrice,
        double serviceLevel,
        Optional<BigDecimal> weeklyUse,
        int version) {}
