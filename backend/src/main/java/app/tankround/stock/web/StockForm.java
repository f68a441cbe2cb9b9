package app.tankround.stock.web;

import app.tankround.stock.NewStockItem;
import app.tankround.stock.StockItemDetails;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What is stated about an item.
 *
 * @param id made when the form is shown, so that sending it twice adds once
 * @param name of everything but a test kit
 * @param quantity of a test kit
 * @param unitMassKg mass of one unit in kg, whatever the business reads: it is what labels say
 * @param testsPerKit of a test kit
 * @param onHand how many there are of a new item; later they are counted
 */
record StockForm(
        @Nullable StockItemId id,
        int version,
        @Nullable StockKind kind,
        @Nullable String name,
        @Nullable String quantity,
        @Nullable Integer sizeMm,
        @Nullable Integer lengthMm,
        @Nullable Integer finenessUm,
        @Nullable String unit,
        @Nullable BigDecimal unitMassKg,
        @Nullable Integer testsPerKit,
        @Nullable BigDecimal onHand) {

    static StockForm blank(StockItemId id) {
        return new StockForm(id, 0, null, null, null, null, null, null, null, null, null, null);
    }

    static StockForm of(StockItemView item) {
        boolean kit = item.kind() == StockKind.TEST_KIT;
        return new StockForm(
                item.id(),
                item.version(),
                item.kind(),
                kit ? null : item.name(),
                kit ? item.name() : null,
                item.sizeMm().orElse(null),
                item.lengthMm().orElse(null),
                item.finenessUm().orElse(null),
                item.unit(),
                new BigDecimal(BigDecimal.valueOf(item.unitMass().kilograms())
                        .stripTrailingZeros()
                        .toPlainString()),
                item.testsPerKit().orElse(null),
                null);
    }

    /** @throws FieldRefusal if something needed is missing */
    NewStockItem toCommand() {
        return new NewStockItem(toDetails(), needed("onHand", onHand));
    }

    /** @throws FieldRefusal if something needed is missing */
    StockItemDetails toDetails() {
        if (kind == null) {
            throw new FieldRefusal("kind", "stock.kind-missing");
        }
        boolean kit = kind == StockKind.TEST_KIT;
        if (kit && quantity == null) {
            throw new FieldRefusal("quantity", "stock.kit-without-quantity");
        }
        return new StockItemDetails(
                kind,
                Objects.requireNonNullElse(kit ? quantity : name, ""),
                Optional.ofNullable(sizeMm),
                Optional.ofNullable(lengthMm),
                Optional.ofNullable(finenessUm),
                Objects.requireNonNullElse(unit, ""),
                needed("unitMassKg", unitMassKg),
                Optional.ofNullable(testsPerKit));
    }

    private static BigDecimal needed(String field, @Nullable BigDecimal number) {
        if (number == null) {
            throw new FieldRefusal(field, "web.number-missing");
        }
        return number;
    }
}
