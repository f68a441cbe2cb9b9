package app.tankround.rounds;

import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.clients.SiteView;
import app.tankround.rounds.solver.Cargo;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Component;

/** What stops add to a van's load, as far as whoever knows what they need can say. */
@Component
class StopLoads {

    private static final int GRAMS_PER_KILOGRAM = 1000;
    private static final int MILLILITRES_PER_LITRE = 1000;

    /** Of grams and of millilitres: more than any van. */
    private static final int MOST = 50_000_000;

    private final ObjectProvider<StopDemand> demand;

    StopLoads(ObjectProvider<StopDemand> demand) {
        this.demand = demand;
    }

    /** A stop on some day, of which is asked what it adds. */
    record Asked(SiteView site, LocalDate day, List<PlannedVisitId> visits, boolean sick) {}

    /**
     * What a stop takes out of a van and puts into it.
     *
     * @param collected empty drums, what is used again, and water taken out where there is no drain
     */
    record Added(Cargo delivered, Cargo collected) {

        static final Added NOTHING = new Added(Cargo.NONE, Cargo.NONE);

        /** What a van that comes for it alone has to bear and to hold. */
        Cargo alone() {
            return delivered.largerOf(collected);
        }
    }

    /**
     * What vans carry and stops add, asked at once, since that spares most of the work.
     *
     * @param room per van, what it can take beside what is in it anyway
     * @param added per stop
     */
    record Loads(Map<VanId, Cargo> room, List<Added> added) {}

    /** Of vans on a day, and of stops about then; a stop without a visit adds nothing. */
    Loads of(List<VanView> vans, LocalDate day, List<Asked> stops) {
        if (vans.isEmpty()) {
            return new Loads(Map.of(), stops.stream().map(stop -> Added.NOTHING).toList());
        }
        List<RoundView> asked = new ArrayList<>();
        vans.forEach(van -> asked.add(pseudo(van, day, List.of())));
        stops.stream()
                .filter(stop -> !stop.visits().isEmpty())
                .forEach(stop -> asked.add(pseudo(vans.getFirst(), stop.day(), List.of(stop))));
        Iterator<StopDemand.Carried> carried = carried(asked).iterator();
        Map<VanId, Cargo> room = new HashMap<>();
        int empty = 0;
        for (VanView van : vans) {
            int grams = grams(carried.next().departure());
            empty = van.equals(vans.getFirst()) ? grams : empty;
            room.put(
                    van.id(),
                    new Cargo(
                            Math.max(0, grams(van.payload()) - grams),
                            van.room().map(StopLoads::millilitres).orElse(MOST)));
        }
        List<Added> added = new ArrayList<>();
        for (Asked stop : stops) {
            if (stop.visits().isEmpty()) {
                added.add(Added.NOTHING);
                continue;
            }
            StopDemand.Carried here = carried.next();
            added.add(new Added(
                    beyond(empty, here.departure(), here.departureRoom()),
                    beyond(empty, here.back(), here.backRoom())));
        }
        return new Loads(room, added);
    }

    /** The most that a van bears and holds at once that goes to these one after the other. */
    static Cargo most(List<Added> inOrder) {
        int grams = inOrder.stream().mapToInt(stop -> stop.delivered().grams()).sum();
        int millilitres = inOrder.stream()
                .mapToInt(stop -> stop.delivered().millilitres())
                .sum();
        Cargo most = new Cargo(Math.min(grams, MOST), Math.min(millilitres, MOST));
        for (Added stop : inOrder) {
            grams += stop.collected().grams() - stop.delivered().grams();
            millilitres += stop.collected().millilitres() - stop.delivered().millilitres();
            most = most.largerOf(new Cargo(Math.clamp(grams, 0, MOST), Math.clamp(millilitres, 0, MOST)));
        }
        return most;
    }

    private static Cargo beyond(int empty, Mass mass, Volume room) {
        return new Cargo(Math.max(0, grams(mass) - empty), millilitres(room));
    }

    private static int millilitres(Volume volume) {
        return (int) Math.clamp(Math.round(volume.litres() * MILLILITRES_PER_LITRE), 0, MOST);
    }

    private static int grams(Mass mass) {
        return (int) Math.clamp(Math.round(mass.kilograms() * GRAMS_PER_KILOGRAM), 0, MOST);
    }

    private List<StopDemand.Carried> carried(List<RoundView> asked) {
        StopDemand known = demand.getIfAvailable();
        return known == null
                ? asked.stream()
                        .map(round -> new StopDemand.Carried(
                                round.van().fixedLoad(),
                                round.van().fixedLoad(),
                                Volume.ofLitres(0),
                                Volume.ofLitres(0)))
                        .toList()
                : known.carried(asked);
    }

    /** A round that nobody drives, of which is asked what it would carry. */
    private static RoundView pseudo(VanView van, LocalDate day, List<Asked> here) {
        List<StopView> stops = IntStream.range(0, here.size())
                .mapToObj(k -> StopView.invented(
                        new StopId(here.get(k).visits().getFirst().value()),
                        k + 1,
                        here.get(k).site().id(),
                        here.get(k).site().name(),
                        here.get(k).sick(),
                        here.get(k).visits()))
                .toList();
        return RoundView.invented(new RoundId(van.id().value()), van, day, van.leavesAt(), stops);
    }
}
