package app.tankround.plans;

import app.tankround.units.Quantity;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * What a device takes along to tell at the tank, without a connection, what the guard over doses will say. The guard decides.
 *
 * @param limits of products
 * @param given to the system lately
 * @param alkalinitySalts salts of known strength that raise alkalinity
 * @param salts what salts that are named by their formula or a name raise
 * @param raisePh parts of names that tell of a product that raises pH, in letters and digits alone
 * @param phPerDay how far pH may rise in a day
 * @param medicines what is held against medicines, copper and algicide
 */
public record DoseFacts(
        List<Limit> limits,
        List<Past> given,
        List<AlkalinitySalt> alkalinitySalts,
        Salts salts,
        List<String> raisePh,
        double phPerDay,
        Ammonia ammonia,
        Medicines medicines) {

    public DoseFacts {
        limits = List.copyOf(limits);
        given = List.copyOf(given);
        alkalinitySalts = List.copyOf(alkalinitySalts);
        raisePh = List.copyOf(raisePh);
    }

    /**
     * mg/L of ammonia.
     *
     * @param noticeable total that is looked into
     * @param much total with which nothing raises pH
     * @param harms un-ionised from which fish are harmed
     */
    public record Ammonia(double noticeable, double much, double harms) {}

    /**
     * @param name of the product in small letters with single blanks
     * @param leastHours 0 for none
     * @param most of a day for the whole system, in the unit; 0 for none
     */
    public record Limit(String name, int leastHours, double most, String unit, boolean raisesPh) {}

    /**
     * @param key names the line, so that what the device has itself counts once
     * @param at milliseconds since 1970
     */
    public record Past(String key, String name, double amount, String unit, long at) {}

    /**
     * @param names in letters and digits alone
     * @param gramsPerDegree that raise the system by one dKH
     */
    public record AlkalinitySalt(List<String> names, double gramsPerDegree) {

        public AlkalinitySalt {
            names = List.copyOf(names);
        }
    }

    /**
     * @param fillers words that are left out of a name
     * @param raises quantities by names in letters and digits alone
     */
    public record Salts(List<String> fillers, Map<String, Quantity> raises) {

        public Salts {
            fillers = List.copyOf(fillers);
            raises = Collections.unmodifiableSortedMap(new TreeMap<>(raises));
        }
    }

    /**
     * @param named kinds that a name gives away, the most dangerous first
     * @param stated kinds that the office stated
     * @param copper what speaks against copper in this water; empty where nothing does
     * @param copperByAlkalinity whether alkalinity decides about copper, and below which dKH it kills; empty in salt water
     * @param eaten whether the animals will be eaten
     * @param ordered names of products that a veterinarian's order is in force for
     */
    public record Medicines(
            List<Named> named,
            List<Stated> stated,
            Optional<Against> copper,
            Optional<Double> copperByAlkalinity,
            boolean eaten,
            List<String> ordered) {

        public Medicines {
            named = List.copyOf(named);
            stated = List.copyOf(stated);
            ordered = List.copyOf(ordered);
        }
    }

    /** @param parts of names, in small letters */
    public record Named(String kind, boolean needsOrder, List<String> parts) {

        public Named {
            parts = List.copyOf(parts);
        }
    }

    /** @param name of the product in small letters with single blanks */
    public record Stated(String name, String kind) {}

    /** A refusal by its code. */
    public record Against(String code, List<String> args) {

        public Against {
            args = List.copyOf(args);
        }
    }
}
