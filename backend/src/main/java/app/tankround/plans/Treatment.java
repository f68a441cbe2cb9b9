package app.tankround.plans;

import app.tankround.tanks.WaterSystemId;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/**
 * What is given to a system for a while. The program prescribes nothing: drug, aim and end are those of whoever ordered it.
 *
 * @param strength mg of the drug in one mL or g of the product
 * @param unit mL or g
 * @param low mg/L that are aimed at, at least
 * @param high at most
 * @param copper what holds for copper; empty for any other drug
 * @param things what must be off while it is given, and how it stands
 */
public record Treatment(
        UUID id,
        WaterSystemId systemId,
        String product,
        String orderedBy,
        double strength,
        String unit,
        double low,
        double high,
        Optional<Copper> copper,
        LocalDate startedOn,
        Optional<LocalDate> endedOn,
        Map<Thing, State> things,
        int version) {

    /** What takes a drug out of the water, or destroys it. */
    public enum Thing {
        CARBON,
        UV,
        OZONE,
        SKIMMER
    }

    public enum State {
        /** Not taken off yet. */
        ON,
        OFF,
        BACK
    }

    public enum CopperForm {
        FREE,
        CHELATED
    }

    public enum KitShows {
        /** Misses what is bound, and so makes people give more. */
        FREE,
        TOTAL
    }

    public record Copper(CopperForm form, KitShows kit) {

        /** A kit for free copper sees chelated copper not at all, or hardly. */
        public boolean fits() {
            return form == CopperForm.FREE || kit == KitShows.TOTAL;
        }
    }

    public Treatment {
        things = Map.copyOf(things);
    }

    public boolean open() {
        return endedOn.isEmpty();
    }

    /** In the order in which they are named. */
    public List<Thing> in(State state) {
        return things.entrySet().stream()
                .filter(each -> each.getValue() == state)
                .map(Map.Entry::getKey)
                .sorted()
                .toList();
    }

    /** In {@link #unit}, what brings net water of {@code litres} from {@code residual} to {@code wanted} mg/L; 0 if it is there. */
    public double dose(double wanted, double residual, double litres) {
        return Math.max(0, wanted - residual) * litres / strength;
    }
}
