package app.tankround.loads;

import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * One line of a load sheet: one number of one thing.
 *
 * @param key names the line for as long as the round needs it, such as {@code sock:100x400-200}
 * @param apartFor name of the sick system it is for alone: own drum, own sock, at the rear door
 * @param amount above 0, in {@code unit}
 * @param item what it is
 * @param each mass of one where several are lifted singly
 * @param mass of the whole line; nothing for tools, which are part of the van's fixed load
 * @param estimated whether the mass rests on a usual density or mass, because the catalogue does not know the item
 * @param workings how the number came about, step by step
 * @param stops who needs it, in the order of the round; empty if every stop does
 * @param assurance how sure it is to be enough; empty where that is not known, and what is planned is loaded
 * @param container the registered container that it is; empty for drums of the van's usual size and for everything else
 * @param refill where it is filled on the way; its mass is without that water
 * @param caution what is wrong with it although it can be loaded
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
        Optional<Assurance> assurance,
        Optional<LoadedContainer> container,
        Optional<Refill> refill,
        Optional<LoadCaution> caution) {

    /** By how it is lifted, what is for one sick system after what is shared. */
    static final Comparator<LoadLine> ORDER =
            Comparator.comparing(LoadLine::group).thenComparing(LoadLine::apart);

    private static final double ROUNDING = 1e-9;

    public LoadLine {
        workings = List.copyOf(workings);
        stops = List.copyOf(stops);
    }

    /** With nothing wrong. */
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
            List<StopShare> stops,
            Optional<Assurance> assurance,
            Optional<LoadedContainer> container,
            Optional<Refill> refill) {
        this(
                key,
                group,
                apartFor,
                amount,
                unit,
                item,
                each,
                mass,
                estimated,
                workings,
                stops,
                assurance,
                container,
                refill,
                Optional.empty());
    }

    LoadLine with(Optional<LoadCaution> wrong) {
        return new LoadLine(
                key, group, apartFor, amount, unit, item, each, mass, estimated, workings, stops, assurance, container,
                refill, wrong);
    }

    /** In nothing that has a number. */
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
            List<StopShare> stops,
            Optional<Assurance> assurance) {
        this(
                key,
                group,
                apartFor,
                amount,
                unit,
                item,
                each,
                mass,
                estimated,
                workings,
                stops,
                assurance,
                Optional.empty(),
                Optional.empty());
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

    /**
     * Whether something could die without it: what makes tap water safe, and what readings rest on. It is not ticked away, only
     * left with a reason.
     */
    public boolean isSafety() {
        return group == LoadGroup.INSTRUMENTS || key.startsWith(LoadRules.CONDITIONER_KEY);
    }

    /**
     * The stops that would not get what they need, since the first ones take theirs first; every stop where all need it.
     *
     * @param missing above 0, in the unit of the line
     */
    public List<StopShare> endangered(BigDecimal missing) {
        double needed = stops.stream()
                .mapToDouble(share -> share.amount().doubleValue())
                .sum();
        // What stops need of drums is litres.
        return beyond(stops, needed * (1 - missing.doubleValue() / amount.doubleValue()));
    }

    /** The stops that do not get all they need where so much is there for them together, since the first ones take theirs first. */
    static List<StopShare> beyond(List<StopShare> stops, double left) {
        List<StopShare> without = new ArrayList<>();
        double taken = 0;
        for (StopShare share : stops) {
            taken += share.amount().doubleValue();
            if (taken > left + ROUNDING) {
                without.add(share);
            }
        }
        return without;
    }

    /** Whether what stops need of it is litres. */
    boolean holdsWater() {
        return group.isWater() || refill.isPresent();
    }

    /** Of water, how many litres so many of its drums hold, be it on the way only; empty for everything else. */
    Optional<BigDecimal> litres(BigDecimal drums) {
        if (refill.isPresent()) {
            return Optional.of(BigDecimal.valueOf(refill.get().volume().litres())
                    .multiply(drums)
                    .divide(amount, 3, RoundingMode.HALF_EVEN));
        }
        return group.isWater() && item.args().getFirst() instanceof Volume each
                ? Optional.of(BigDecimal.valueOf(each.litres()).multiply(drums))
                : Optional.empty();
    }

    /** Whether somebody lifts it into the van with its water. */
    boolean isLiftedFull() {
        return group.isWater() && container.filter(LoadedContainer::pumped).isEmpty();
    }

    /** Whether it must not touch what is for other systems. */
    public boolean apart() {
        return apartFor.isPresent();
    }
}
