package app.tankround.plans;

import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.units.Volume;
import java.math.BigDecimal;

/**
 * How much water is changed at a visit by what stands in its tasks: everything given as a share of the net volume, and the
 * largest of what is given in litres, as the van is loaded.
 */
record AgreedChange(double byShare, double byVolume) {

    static AgreedChange of(PlannedVisitView visit, Volume netVolume) {
        double byShare = 0;
        double byVolume = 0;
        for (TaskView task : visit.tasks()) {
            double amount = task.amount().map(BigDecimal::doubleValue).orElse(0.0);
            if (task.kind() == TaskKind.WATER_CHANGE) {
                boolean share = task.unit().filter("%"::equals).isPresent();
                byShare += share ? amount / 100 * netVolume.litres() : 0;
                byVolume = Math.max(byVolume, share ? 0 : amount);
            }
        }
        return new AgreedChange(byShare, byVolume);
    }

    double litres() {
        return byShare + byVolume;
    }
}
