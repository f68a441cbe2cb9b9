package app.tankround.seed;

import app.tankround.persistence.Uuids;
import app.tankround.readings.ReadingId;
import app.tankround.stock.BatchMeasurement;
import app.tankround.stock.NewWaterBatch;
import app.tankround.stock.UnmeasuredBatches;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.tanks.WaterSystems;
import java.math.BigDecimal;
import java.util.Optional;
import org.springframework.stereotype.Component;

/** Salt water of the last day: a batch that was measured and let out, and a drum that somebody let out unmeasured. */
@Component
class Mixing {

    private static final String VAT = "W-003";
    private static final BigDecimal LOWEST = new BigDecimal("34.5");
    private static final BigDecimal HIGHEST = new BigDecimal("35.5");

    private final WaterBatches batches;
    private final UnmeasuredBatches unmeasured;
    private final WaterSystems systems;
    private final Toolbox toolbox;
    private final DemoClock clock;

    Mixing(WaterBatches batches, UnmeasuredBatches unmeasured, WaterSystems systems, Toolbox toolbox, DemoClock clock) {
        this.batches = batches;
        this.unmeasured = unmeasured;
        this.systems = systems;
        this.toolbox = toolbox;
        this.clock = clock;
    }

    void mix() {
        WaterBatchView measured = make("drums 3 to 10", "180", "7.55");
        batches.release(
                measured.id(),
                measured.version(),
                new BatchMeasurement(
                        ReadingId.of(Uuids.next(clock.instant())),
                        Optional.ofNullable(toolbox.ids().get(Tool.METER)).orElseThrow(),
                        new BigDecimal("35.0"),
                        Optional.of(new BigDecimal("24"))));
        WaterBatchView drum = make("drum 11", "25", "1.05");
        unmeasured.release(
                drum.id(), drum.version(), "A leak at The Copper Gurnard: they needed it before the meter was back");
    }

    private WaterBatchView make(String container, String litres, String saltKg) {
        return batches.make(new NewWaterBatch(
                WaterBatchId.of(Uuids.next(clock.instant())),
                systems.findByCode(VAT).orElseThrow().id(),
                container,
                new BigDecimal(litres),
                Optional.of(new BigDecimal(saltKg)),
                Optional.of(LOWEST),
                HIGHEST,
                Optional.of(Shelf.SALT_LOT),
                Optional.of(BigDecimal.ZERO)));
    }
}
