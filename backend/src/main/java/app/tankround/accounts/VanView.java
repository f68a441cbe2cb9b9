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
 * @param drum its usual drum for water, and what that weighs empty
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
        Optional<PersonId> technician,
        LocalTime leavesAt,
        int version) {}
