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
        String unit,
        double unitMassKg,
        BigDecimal onHand,
        Instant countedAt,
        @Version int version) {

    static StockItem of(StockItemId id, NewStockItem stated, Instant countedAt, int version) {
        return new StockItem(
                id,
                stated.kind(),
                stated.name(),
                stated.sizeMm().orElse(null),
                stated.unit(),
                stated.unitMassKg().doubleValue(),
                stated.onHand(),
                countedAt,
                version);
    }

    StockItem counted(BigDecimal now, Instant at) {
        return new StockItem(id, kind, name, sizeMm, unit, unitMassKg, now, at, version);
    }

    StockItemView view() {
        return new StockItemView(
                id,
                kind,
                name,
                Optional.ofNullable(sizeMm),
                unit,
                Mass.ofKilograms(unitMassKg),
                onHand,
                countedAt,
                version);
    }
}
