package app.tankround.purification;

import app.tankround.chemistry.MembraneHealth;
import app.tankround.chemistry.PretreatmentState.ChlorineTest;
import app.tankround.chemistry.PurifiedWaterNote;
import app.tankround.chemistry.ResinCharge;
import app.tankround.chemistry.SolidsCreep;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.WaterSystemId;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How a plant does, by its readings. Readings in doubt count for nothing here.
 *
 * @param points in the order in which water runs through, those that nobody placed last
 * @param stages in use
 * @param made what its water meter says
 */
public record PlantState(
        WaterSystemId plantId,
        List<PointState> points,
        List<ContainerState> containers,
        List<StageState> stages,
        Made made) {

    public PlantState {
        points = List.copyOf(points);
        containers = List.copyOf(containers);
        stages = List.copyOf(stages);
    }

    /** Everything the stages need, by stage. */
    public List<PurifiedWaterNote> notes() {
        return stages.stream().flatMap(stage -> stage.notes().stream()).toList();
    }

    /** The page of the plant. */
    public String page() {
        return Plants.page(plantId);
    }

    /**
     * A sample point of the plant.
     *
     * @param place empty where nobody said
     * @param solids the newest reading of dissolved solids there
     */
    public record PointState(SamplePointView point, Optional<Place> place, Optional<ReadingView> solids) {}

    /**
     * A container that is filled from the plant.
     *
     * @param pointId where it is a sample point of the plant and no system of its own
     * @param creep what is known where its dissolved solids creep up
     */
    public record ContainerState(
            WaterSystemId systemId,
            Optional<SamplePointId> pointId,
            String name,
            Optional<ReadingView> solids,
            Optional<LocalDate> washedOn,
            Optional<Creep> creep) {}

    /**
     * A rise of dissolved solids.
     *
     * @param from mg/L, {@code days} ago
     * @param to mg/L now
     */
    public record Creep(double from, double to, long days, SolidsCreep found) {}

    /**
     * A stage with what follows from the readings.
     *
     * @param months whole ones since it was put in
     * @param drop of pressure over prefilter and carbon, in kPa, for a prefilter
     * @param test the newest one after the carbon, for carbon
     * @param notes what it needs
     */
    public record StageState(
            StageView stage,
            long months,
            Optional<MembraneHealth> membrane,
            Optional<ResinState> resin,
            OptionalDouble drop,
            Optional<ChlorineTest> test,
            List<PurifiedWaterNote> notes) {

        public StageState {
            notes = List.copyOf(notes);
        }
    }

    /**
     * What is left of a resin at the load that it gets now.
     *
     * @param reckonedHeld share that the membrane was taken to hold back, where the load was not measured after it
     */
    public record ResinState(
            ResinCharge charge, OptionalDouble litresLeft, OptionalDouble daysLeft, OptionalDouble reckonedHeld) {}

    /**
     * Water made.
     *
     * @param meter litres that the meter showed last
     * @param litresPerDay over the last months
     */
    public record Made(OptionalDouble meter, OptionalDouble litresPerDay) {}
}
