package app.tankround.loads;

import app.tankround.accounts.VanView;
import app.tankround.chemistry.SaltWater;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.util.List;

/**
 * What is still in the van after each stop and comes back to the depot of what went along, and what is taken along on the way:
 * RO/DI water for later stops, and water for which there is no drain. Socks and media come back used and are taken to weigh what they weighed (own choice, no
 * source); containers for waste that nobody registered belong to the fixed load beside the emptied drums.
 */
final class WayBack {

    private static final Salinity FRESH = Salinity.ofPractical(0);

    private static final double ROUNDING_L = 1e-6;

    private WayBack() {}

    /** Everything in the van when it is back from a round, people and tools included. */
    static Mass mass(VanView van, List<SystemWork> works, List<LoadLine> lines) {
        int last = works.stream().mapToInt(SystemWork::position).max().orElse(0);
        return after(last, van, works, lines);
    }

    /** Everything in the van once it leaves a stop, 0 for the depot, and has left there what the stops so far need. */
    static Mass after(int position, VanView van, List<SystemWork> works, List<LoadLine> lines) {
        double kilograms = van.fixedLoad().kilograms();
        for (LoadLine line : lines) {
            double kept = kept(van, line).kilograms();
            kilograms += kept + (line.mass().kilograms() - kept + filled(line, position)) * (1 - used(line, position));
        }
        for (SystemWork work : works) {
            kilograms += work.position() <= position ? waste(work).kilograms() : 0;
        }
        return Mass.ofKilograms(kilograms);
    }

    /** The water with which a line was filled up to a stop, kg; it is all in the van before the first stop that needs any. */
    private static double filled(LoadLine line, int position) {
        return line.refill()
                .filter(refill -> refill.position() <= position)
                .map(refill -> refill.water().kilograms())
                .orElse(0.0);
    }

    /** The share of a line that the stops up to one need; none of what every stop does, and none of what is beyond the plan. */
    private static double used(LoadLine line, int position) {
        double all = needed(line, Integer.MAX_VALUE);
        return all > 0 ? needed(line, position) / all * (1 - line.beyondPlan()) : 0;
    }

    /** What one stop adds to the van as it leaves, kg. */
    static double deliveredTo(int position, List<LoadLine> lines) {
        return lines.stream()
                .mapToDouble(line -> line.mass().kilograms() * (used(line, position) - used(line, position - 1)))
                .sum();
    }

    private static double needed(LoadLine line, int position) {
        return line.stops().stream()
                .filter(share -> share.position() <= position)
                .mapToDouble(share -> share.amount().doubleValue())
                .sum();
    }

    /** The room that drums take, by what they hold: one that is not full takes as much. */
    static Volume roomAtDeparture(VanView van, List<LoadLine> lines) {
        return Volume.ofLitres(lines.stream()
                .filter(line -> line.unit() == LoadUnit.DRUM)
                .mapToDouble(line -> line.amount().doubleValue()
                        * line.container()
                                .map(LoadedContainer::size)
                                .orElse(van.drum())
                                .litres())
                .sum());
    }

    /**
     * The most room that drums take: emptied ones are filled with what is taken out, and where that is more it takes others;
     * so do those that hold what nobody needed. A registered container is never filled with what is taken out unless it is one
     * for waste: what finds no room in those takes drums beside all others.
     */
    static Volume room(VanView van, List<SystemWork> works, List<LoadLine> lines) {
        if (lines.stream().anyMatch(line -> line.container().isPresent())) {
            double without = works.stream()
                            .mapToDouble(work -> LoadRules.takenAlong(work).doubleValue())
                            .sum()
                    - lines.stream()
                            .filter(line -> line.group() == LoadGroup.WASTE_CONTAINERS)
                            .mapToDouble(line -> line.container()
                                    .map(container -> container.level().litres())
                                    .orElse(0.0))
                            .sum();
            double more = without > ROUNDING_L ? Math.ceil(without / van.drum().litres()) : 0;
            return roomAtDeparture(van, lines)
                    .plus(Volume.ofLitres(more * van.drum().litres()));
        }
        double waste = works.stream()
                .mapToDouble(work -> Math.ceil(
                        LoadRules.takenAlong(work).doubleValue() / van.drum().litres()))
                .sum();
        if (waste > 0) {
            waste += lines.stream()
                    .filter(line -> line.unit() == LoadUnit.DRUM && line.beyondPlan() > 0)
                    .mapToDouble(
                            line -> Math.ceil(line.beyondPlan() * line.amount().doubleValue()))
                    .sum();
        }
        return Volume.ofLitres(Math.max(
                roomAtDeparture(van, lines).litres(), waste * van.drum().litres()));
    }

    private static Mass kept(VanView van, LoadLine line) {
        return switch (line.group()) {
            case SALT_WATER, RO_DI_WATER ->
                Mass.ofKilograms(line.container()
                                .map(LoadedContainer::empty)
                                .orElse(van.drumEmpty())
                                .kilograms()
                        * line.amount().doubleValue());
            case DRY_SALT, DOSES -> Mass.ofKilograms(0);
            case EMPTY_DRUMS,
                    FILLED_ON_THE_WAY,
                    WASTE_CONTAINERS,
                    SOCKS,
                    MEDIA,
                    TEST_KITS,
                    INSTRUMENTS,
                    SINGLE_WORK,
                    TOOLS -> line.mass();
        };
    }

    private static Mass waste(SystemWork work) {
        BigDecimal litres = LoadRules.takenAlong(work);
        if (litres.signum() == 0) {
            return Mass.ofKilograms(0);
        }
        Salinity salinity = work.salinity().map(SalinityGoal::salinity).orElse(FRESH);
        return SaltWater.mass(Volume.ofLitres(litres.doubleValue()), salinity, LoadRules.MIXED_AT);
    }
}
