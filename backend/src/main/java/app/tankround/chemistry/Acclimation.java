package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import org.jspecify.annotations.Nullable;

/**
 * How an animal that came in a bag is brought to the water of a tank: float for temperature, then drip, by the exact algebra of
 * {@link Dilution}; or, after a long journey, not dripped for long. In a closed bag carbon dioxide holds pH down, and ammonia
 * is ammonium; opened, pH rises towards that of the tank, and ammonium turns to ammonia ({@link UnionisedAmmonia}).
 *
 * <p>Salinity of moved fish changes by at most 1 in an hour (ICAR fish-health course, read); 2 to 3 °C take 15 to 30 minutes
 * of floating, and all other numbers here, are common practice, no source.
 */
public final class Acclimation {

    /** Practical salinity in an hour, for fish that are moved. */
    public static final double SALINITY_PER_HOUR = 1;

    /** Nearer than that to the tank's salinity is the tank's salinity: own choice. */
    public static final double NEAR_SALINITY = 0.5;

    /** Of the whole difference where salinity tells nothing, for pH and hardness: common practice, no source. */
    private static final double USUAL_PART = 0.8;

    /** Shortest drip, minutes: common practice, no source. */
    private static final double SHORTEST_MINUTES = 30;

    /** As long as an opened bag with much ammonium may take, minutes: own choice. */
    public static final double SHORT_MINUTES = 20;

    /** From so many hours in a bag ammonium is taken to be high where nobody measured it: own choice. */
    public static final double LONG_SHIPPED_HOURS = 12;

    /** A salinity that is farther off cannot be bridged in a short time: own choice. */
    private static final double BRIDGED_AT_ONCE = 2;

    private static final double SHORTEST_FLOAT_MINUTES = 15;
    private static final double FLOAT_MINUTES_PER_KELVIN = 8;
    private static final double MINUTES_PER_HOUR = 60;

    /** A vessel in which the water is to grow holds at least this many times as much as the bag: own choice. */
    private static final double LEAST_ROOM = 1.2;

    /**
     * @param bag of the water as it came
     * @param ph NBS scale, in the bag as it was opened
     * @param totalAmmonia mg/L; null where nobody measured it
     * @param hoursInBag since it was packed
     */
    public record Bag(
            Volume bag,
            Salinity salinity,
            Temperature temperature,
            double ph,
            @Nullable Double totalAmmonia,
            double hoursInBag) {}

    public record Tank(Salinity salinity, Temperature temperature, double ph) {}

    /**
     * @param capacity of the vessel in which it is dripped
     * @param growing whether nothing runs off while it is dripped; else as much is taken out as drips in
     * @param dropsPerMillilitre of the line at hand, as counted
     */
    public record Drip(Volume capacity, boolean growing, double dropsPerMillilitre) {}

    /** What is to be done. */
    public enum Way {
        DRIP,
        /** Much ammonium: float closed, open, and move within minutes. */
        SHORT,
        /** Much ammonium and another salinity: into water mixed to the bag's salinity at once, and slowly on from there. */
        MATCH
    }

    /**
     * @param floatMinutes with the bag closed, for temperature
     * @param dripMinutes 0 where nothing is dripped
     * @param added L of tank water in all
     * @param millilitresPerMinute 0 where nothing is dripped
     * @param pourOffs how often the vessel is poured back to what was in the bag, since it would run over
     * @param reachedSalinity in the vessel in the end
     * @param ammoniaBefore un-ionised mg/L in the bag; null without a measurement
     * @param ammoniaAfter un-ionised mg/L of the same ammonia at pH, temperature and salinity of the tank
     */
    public record Plan(
            Way way,
            double floatMinutes,
            double dripMinutes,
            double added,
            double millilitresPerMinute,
            double dropsPerSecond,
            double pourOffs,
            double reachedSalinity,
            @Nullable Double ammoniaBefore,
            @Nullable Double ammoniaAfter) {}

    private Acclimation() {}

    /** @throws app.tankround.units.OutOfRangeException for what no bag, tank or line is */
    public static Plan plan(Bag bag, Tank tank, Drip drip) {
        double held = Ranges.require(InputKind.VOLUME, bag.bag().litres(), 0.01, 1000);
        double least = drip.growing() ? held * LEAST_ROOM : held;
        double capacity = Ranges.require(InputKind.VOLUME, drip.capacity().litres(), least, 10_000);
        double drops = Ranges.require(InputKind.COUNT, drip.dropsPerMillilitre(), 5, 100);
        double from =
                Ranges.require(InputKind.PRACTICAL_SALINITY, bag.salinity().practical(), 0, 42);
        double to = Ranges.require(InputKind.PRACTICAL_SALINITY, tank.salinity().practical(), 0, 42);
        double off = Math.abs(to - from);
        double kelvin =
                Math.abs(tank.temperature().celsius() - bag.temperature().celsius());
        double floating = Math.max(SHORTEST_FLOAT_MINUTES, Math.ceil(kelvin * FLOAT_MINUTES_PER_KELVIN));
        Double before = un(bag.totalAmmonia(), bag.ph(), bag.temperature(), bag.salinity());
        Double after = un(bag.totalAmmonia(), Math.max(bag.ph(), tank.ph()), tank.temperature(), tank.salinity());
        boolean much = after == null ? bag.hoursInBag() >= LONG_SHIPPED_HOURS : after >= AmmoniaOnRise.HARMS_FROM;
        if (much && off > BRIDGED_AT_ONCE) {
            return new Plan(Way.MATCH, floating, 0, 0, 0, 0, 0, from, before, after);
        }
        double wanted = off <= NEAR_SALINITY ? USUAL_PART : Math.max(USUAL_PART, 1 - NEAR_SALINITY / off);
        double byRate = off / SALINITY_PER_HOUR * MINUTES_PER_HOUR;
        double minutes = much ? SHORT_MINUTES : Math.max(SHORTEST_MINUTES, Math.ceil(byRate));
        Way way = much ? Way.SHORT : Way.DRIP;
        double rest = 1 - wanted;
        double added;
        double pourOffs = 0;
        double part = wanted;
        if (!drip.growing()) {
            added = Dilution.toPassThrough(wanted, bag.bag()).litres();
        } else {
            added = Dilution.toAdd(wanted, bag.bag()).litres();
            double room = capacity - held;
            if (added > room) {
                double kept = held / capacity;
                double perFilling = Math.log(kept);
                double fillings = Math.ceil(Math.log(rest) / perFilling);
                pourOffs = fillings - 1;
                added = fillings * room;
                part = 1 - Math.pow(kept, fillings);
            }
        }
        double perMinute = added * 1000 / minutes;
        double difference = to - from;
        double reached = from + part * difference;
        double perSecond = perMinute * drops / MINUTES_PER_HOUR;
        return new Plan(way, floating, minutes, added, perMinute, perSecond, pourOffs, reached, before, after);
    }

    private static @Nullable Double un(@Nullable Double total, double ph, Temperature temperature, Salinity salinity) {
        return total == null ? null : total * UnionisedAmmonia.fraction(ph, temperature, salinity);
    }
}
