package app.tankround.stock;

import app.tankround.units.Mass;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;

record StockItem(
        @Id StockItemId id,
        StockKind kind,
        String name,
        @Nullable Integer sizeMm,
        @Nullable Integer lengthMm,
        @Nullable Integer finenessUm,
        String unit,
        double unitMassKg,
        @Nullable Integer testsPerKit,
        Instant countedAt,
        @Version int version) {

    static StockItem of(StockItemId id, StockItemDetails stated, Instant countedAt, int version) {
        return new StockItem(
                id,
                stated.kind(),
                stated.name(),
                stated.sizeMm().orElse(null),
                stated.lengthMm().orElse(null),
                stated.finenessUm().orElse(null),
                stated.unit(),
                stated.unitMassKg().doubleValue(),
                stated.testsPerKit().orElse(null),
                countedAt,
                version);
    }

    StockItemDetails details() {
        return new StockItemDetails(
                kind,
                name,
                Optional.ofNullable(sizeMm),
                Optional.ofNullable(lengthMm),
                Optional.ofNullable(finenessUm),
                unit,
                BigDecimal.valueOf(unitMassKg),
                Optional.ofNullable(testsPerKit));
    }

    StockItemView view(BigDecimal onHand) {
        return new StockItemView(
                id,
                kind,
                name,
                Optional.ofNullable(sizeMm),
                Optional.ofNullable(lengthMm),
                Optional.ofNullable(finenessUm),
                unit,
                Mass.ofKilograms(unitMassKg),
                Optional.ofNullable(testsPerKit),
                onHand,
                countedAt,
                version);
    }
}
