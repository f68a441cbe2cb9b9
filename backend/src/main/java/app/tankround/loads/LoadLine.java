package app.tankround.loads;

import app.tankround.units.Mass;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;

/**
 * One line of a load sheet: one number of one thing.
 *
 * @param key names the line for as long as the round needs it, such as {@code sock:100}
 * @param apartFor name of the sick system it is for alone: own drum, own sock, at the rear door
 * @param amount above 0, in {@code unit}
 * @param item what it is
 * @param each mass of one where several are lifted singly
 * @param mass of the whole line; nothing for tools, which are part of the van's fixed load
 * @param estimated whether the mass rests on a usual density or mass, because the catalogue does not know the item
 * @param workings how the number came about, step by step
 * @param stops who needs it, in the order of the round; empty if every stop does
 * @param assurance how sure it is to be enough; empty where that is not known, and what is planned is loaded
 */
public record LoadLine(
        String key,
        LoadGroup group,
        Optional<String> apartFor,
        BigDecimal amount,
        LoadUnit unit,
        LoadText item,
        Optional<Mass> each,
        Mass mass,
        boolean estimated,
        List<LoadText> workings,
        List<StopShare> stops,
        Optional<Assurance> assurance) {

    public LoadLine {
        workings = List.copyOf(workings);
        stops = List.copyOf(stops);
    }

    /** Of which as much is loaded as is planned. */
    LoadLine(
            String key,
            LoadGroup group,
            Optional<String> apartFor,
            BigDecimal amount,
            LoadUnit unit,
            LoadText item,
            Optional<Mass> each,
            Mass mass,
            boolean estimated,
            List<LoadText> workings,
            List<StopShare> stops) {
        this(key, group, apartFor, amount, unit, item, each, mass, estimated, workings, stops, Optional.empty());
    }

    /** Of what is loaded the part that no stop is planned to need. */
    double beyondPlan() {
        return assurance.map(Assurance::beyond).orElse(0.0);
    }

    /** Whether it must not touch what is for other systems. */
    public boolean apart() {
        return apartFor.isPresent();
    }
}
