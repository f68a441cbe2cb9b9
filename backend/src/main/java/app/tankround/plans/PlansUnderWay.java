package app.tankround.plans;

import app.tankround.readings.UnderWay;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.util.Optional;
import org.springframework.stereotype.Component;

/** Tells whoever asks about readings which plan is followed because of them. */
@Component
class PlansUnderWay implements UnderWay {

    private final PlanRows rows;

    PlansUnderWay(PlanRows rows) {
        this.rows = rows;
    }

    @Override
    public Optional<Followed> followed(WaterSystemId system, Quantity quantity) {
        return rows.bySystem(system).stream()
                .filter(plan -> plan.state() == PlanState.RUNNING && plan.quantity() == quantity)
                .findFirst()
                .map(plan -> new Followed("/plans/" + plan.id(), plan.readingId()));
    }
}
