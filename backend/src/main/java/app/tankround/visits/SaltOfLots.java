package app.tankround.visits;

import app.tankround.stock.LotUse;
import app.tankround.stock.LotUses;
import app.tankround.stock.StockLotView;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;

/** Into which systems the salt of a lot went, in water that was mixed with it. */
@Component
class SaltOfLots implements LotUses {

    private final WaterBatches batches;
    private final VisitRows rows;
    private final WaterSystems systems;

    SaltOfLots(WaterBatches batches, VisitRows rows, WaterSystems systems) {
        this.batches = batches;
        this.rows = rows;
        this.systems = systems;
    }

    @Override
    public List<LotUse> usesOf(StockLotView lot) {
        Map<WaterBatchId, WaterBatchView> made = batches.ofSaltLot(lot.number()).stream()
                .collect(Collectors.toMap(WaterBatchView::id, Function.identity()));
        if (made.isEmpty()) {
            return List.of();
        }
        return rows.drawnFrom(made.keySet()).stream()
                .flatMap(change -> systems.find(change.system()).stream().map(system -> use(system, change)))
                .toList();
    }

    private static LotUse use(WaterSystemView system, ChangesOfWater.Drawn change) {
        return new LotUse(
                system.siteId(),
                Optional.of(system.id()),
                BigDecimal.valueOf(change.litres()),
                "L",
                change.at(),
                true,
                "stock.recall.mixed");
    }
}
