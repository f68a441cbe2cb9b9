package app.tankround.accounts;

import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.time.LocalTime;
import java.util.Optional;

/**
 * A van and what it may carry.
 *
 * @param payload what may be in it together, people and tools included
 * @param fixedLoad people, tools and hoses that ride along every day
 * @param room for drums, by what they hold in all; absent where nobody has said, and then it is never full
 * @param drum its usual drum for water, and what that weighs empty; reckoned with where no containers are registered
 * @param floorCm of its load space above the ground, 20 to 120; absent where nobody has said
 */
public record VanView(
        VanId id,
        String code,
        String name,
        DepotId depotId,
        Mass payload,
        Mass fixedLoad,
        Optional<Volume> room,
        Volume drum,
        Mass drumEmpty,
        Optional<Double> floorCm,
        Optional<PersonId> technician,
        LocalTime leavesAt,
        int version) {

    /** Common practice, no source. */
    public static final double USUAL_FLOOR_CM = 60;

    /** How high things are lifted into it. */
    public double floorOrUsualCm() {
        return floorCm.orElse(USUAL_FLOOR_CM);
    }
}
