package app.tankround.loads;

import app.tankround.accounts.DepotView;
import app.tankround.purification.PlantProduction;
import app.tankround.stock.KeptWater;
import app.tankround.stock.VatView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;

/**
 * What the water plant of a depot has to do in the days ahead.
 *
 * @param plants those that make purified water, with what each gives
 * @param vats that take part, with what is in them
 * @param days each day's demand, today first
 * @param runs when the membranes run
 * @param orders what is mixed, by when it must be started
 * @param drums purified water that goes straight into drums
 * @param onHand salt water that is there already and serves a day
 * @param inDrums water that waits in its drums and serves a day
 * @param remedies what could be done where something is missing, each with what it gives
 */
public record WaterPlan(
        DepotView depot,
        Instant from,
        List<Plant> plants,
        List<VatView> vats,
        List<Day> days,
        List<Run> runs,
        List<Order> orders,
        List<Drums> drums,
        List<OnHand> onHand,
        List<InDrums> inDrums,
        List<Remedy> remedies) {

    public WaterPlan {
        plants = List.copyOf(plants);
        vats = List.copyOf(vats);
        days = List.copyOf(days);
        runs = List.copyOf(runs);
        orders = List.copyOf(orders);
        drums = List.copyOf(drums);
        onHand = List.copyOf(onHand);
        inDrums = List.copyOf(inDrums);
        remedies = List.copyOf(remedies);
    }

    /** @param production empty where nobody measured its flow or said what it is rated */
    public record Plant(WaterSystemId id, String name, Optional<PlantProduction> production) {}

    /**
     * What a day takes along.
     *
     * @param estimated the part of both that is in no round yet
     */
    public record Day(LocalDate day, Volume salt, Volume purified, Volume estimated) {}

    /** The membranes run without a break. */
    public record Run(Instant from, Instant until, Volume made) {}

    /** Why a batch is not ready in time. */
    public enum Cause {
        /** Too little purified water by then. */
        WATER,
        /** No vat that holds it is free by then. */
        VAT,
        /** It can no longer be warm and even by then. */
        TIME
    }

    /**
     * A batch to mix.
     *
     * @param day that needs it
     * @param product salt mix to weigh out
     * @param water purified water to fill in, measured at 20 °C
     * @param vat empty where none is free in time
     * @param fillFrom when the first litre has to come in at the latest; what follows likewise
     * @param readyBy when it has to be measured and released
     * @param leavesAt when the first van leaves with it
     * @param rounds that take it, by their codes; empty where it is for visits in no round yet alone
     * @param estimated the part for visits that are in no round yet
     * @param missing of it, because of {@code cause}
     */
    public record Order(
            LocalDate day,
            Salinity salinity,
            Volume volume,
            Mass product,
            Volume water,
            Optional<String> vat,
            Instant fillFrom,
            Instant saltFrom,
            Instant heatFrom,
            Instant circulateFrom,
            Instant measureFrom,
            Instant readyBy,
            Instant leavesAt,
            List<String> rounds,
            Volume estimated,
            Volume missing,
            Optional<Cause> cause) {

        public Order {
            rounds = List.copyOf(rounds);
        }
    }

    /** Purified water for a day's drums. */
    public record Drums(LocalDate day, Volume volume, Instant by, List<String> rounds, Volume missing) {

        public Drums {
            rounds = List.copyOf(rounds);
        }
    }

    /**
     * Salt water that stands in a vat already.
     *
     * @param batch its number
     * @param served how much of it the days ahead take
     * @param left what nobody takes, which keeps the vat occupied
     */
    public record OnHand(String vat, OptionalInt batch, boolean released, Volume served, Volume left) {}

    /**
     * Water that came back from a round and waits in its drums.
     *
     * @param served how much of it the days ahead take
     */
    public record InDrums(KeptWater kept, Volume served) {}

    /** What could be done. */
    public enum Way {
        /** Somebody salts and measures outside the usual hours, so that filling may begin later. */
        HOURS,
        /** Another vat as large as the largest. */
        VAT,
        /** Another tank for purified water as large as those there are. */
        TANK,
        /** So much less is changed everywhere until then, in percent. */
        SMALLER,
        /** So much is bought. */
        BUY
    }

    /**
     * A way out, worked out by planning again.
     *
     * @param number percent less, or litres to buy; 0 for the others
     * @param missing what would still be missing then
     */
    public record Remedy(Way way, double number, Volume missing) {}

    /** All that is missing. */
    public Volume missing() {
        return Volume.ofLitres(orders.stream()
                        .mapToDouble(order -> order.missing().litres())
                        .sum()
                + drums.stream().mapToDouble(each -> each.missing().litres()).sum());
    }

    /** The first day for which something is missing. */
    public Optional<LocalDate> shortOn() {
        return Stream.concat(
                        orders.stream()
                                .filter(order -> order.missing().litres() > 0)
                                .map(Order::day),
                        drums.stream()
                                .filter(each -> each.missing().litres() > 0)
                                .map(Drums::day))
                .min(LocalDate::compareTo);
    }
}
