package app.tankround.loads;

import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.WaterContainerView;
import app.tankround.units.Volume;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Which containers carry the water of a round, and how far each is filled. Of two choices the better one is, in this order, the
 * one that
 *
 * <ol>
 *   <li>leaves less water without a container,
 *   <li>has fewer lifts over the limit for one person,
 *   <li>takes fewer containers from the pool, which other vans need too,
 *   <li>has fewer lifts, pumped containers being none,
 *   <li>has less mass of containers, and fewer of them.
 * </ol>
 *
 * The limit falls with the number of lifts, so it is that of as many as are chosen in all. Water of different needs never shares
 * a container, and each need takes containers of its role only.
 *
 * <p>Found by going through the containers one after the other and keeping of every pair of half-made choices the one that
 * covers as much of each need with no more lifts at no more cost; costs are compared in the order above, which adding the same
 * to both never changes, so nothing that could become the best is dropped. That is exact ({@code ContainerChoiceTests} tries
 * every choice). Where there are too many half-made choices, the needs are served one after the other, the largest first, each
 * as well as it can be. The order of the ranks is our own choice, no source.
 */
final class ContainerChoice {

    /** Half-made choices of which the dearer ones are still compared with all others; more than small cases need. */
    private static final int MOST_KEPT = 500;

    /** Of the water of one need that many levels are told apart where there are too many half-made choices. */
    private static final int MOST_LEVELS = 100;

    /** Up to so many that may be lifted every number of lifts is tried for its own limit. */
    private static final int MOST_LIFTED_EXACTLY = 16;

    private static final int TENTHS = 10;
    private static final double ROUNDING = 1e-6;
    private static final int GRAMS_PER_KILOGRAM = 1000;

    /** What one person should lift, kg; it must not rise with the number of lifts. */
    interface Limit {

        /** @param lifts of the whole load, 1 or more */
        double kilograms(WaterContainerView container, int lifts);
    }

    /**
     * Water that must not be mixed with other water: of one salinity, for all healthy systems or for one that is not.
     *
     * @param role of the containers that may hold it
     * @param volume above 0; it is rounded up to a tenth of a litre
     * @param kilogramsPerLitre of what is in the container when it is lifted
     * @param filledThere whether it is filled where it is needed, so that it is lifted empty and cannot be a built-in one
     */
    record Need(String key, ContainerRole role, Volume volume, double kilogramsPerLitre, boolean filledThere) {

        private int tenths() {
            return (int) Math.ceil(volume.litres() * TENTHS - ROUNDING);
        }
    }

    /**
     * One container for one need.
     *
     * @param level how far it is filled, above 0
     * @param overLimit whether one person should not lift it so
     */
    record Filled(WaterContainerView container, Volume level, boolean overLimit) {}

    /**
     * What was chosen for one need.
     *
     * @param containers in the order in which they are filled: what is pumped before what is lifted, the largest first
     * @param without what finds no container
     */
    record Served(List<Filled> containers, Volume without) {

        Served {
            containers = List.copyOf(containers);
        }
    }

    /** By which choices are compared, the first part before the second. */
    record Cost(int withoutTenths, int overLimit, int pooled, int lifts, long grams, int containers)
            implements Comparable<Cost> {

        private static final Cost NONE = new Cost(0, 0, 0, 0, 0, 0);

        private static final Cost WORST = new Cost(Integer.MAX_VALUE, 0, 0, 0, 0, 0);

        private static final Comparator<Cost> ORDER = Comparator.comparingInt(Cost::withoutTenths)
                .thenComparingInt(Cost::overLimit)
                .thenComparingInt(Cost::pooled)
                .thenComparingInt(Cost::lifts)
                .thenComparingLong(Cost::grams)
                .thenComparingInt(Cost::containers);

        private Cost plus(Cost other) {
            return new Cost(
                    withoutTenths + other.withoutTenths,
                    overLimit + other.overLimit,
                    pooled + other.pooled,
                    lifts + other.lifts,
                    grams + other.grams,
                    containers + other.containers);
        }

        /** But for its lifts, and what comes after them. */
        private boolean isAsGoodAs(Cost bound) {
            return withoutTenths == bound.withoutTenths && overLimit == bound.overLimit && pooled == bound.pooled;
        }

        private Cost without(int tenths) {
            return new Cost(withoutTenths + tenths, overLimit, pooled, lifts, grams, containers);
        }

        @Override
        public int compareTo(Cost other) {
            return ORDER.compare(this, other);
        }
    }

    private final Map<String, Served> served;
    private final Cost cost;

    private ContainerChoice(Map<String, Served> served, Cost cost) {
        this.served = served;
        this.cost = cost;
    }

    /** What was chosen for a need; all of it is without a container where there was none to choose from. */
    Served of(Need need) {
        return Optional.ofNullable(served.get(need.key())).orElseGet(() -> new Served(List.of(), need.volume()));
    }

    Cost cost() {
        return cost;
    }

    /**
     * Chooses for all needs of a load at once.
     *
     * @param available in the order in which equal ones are taken; those of a pool belong to no van
     */
    static ContainerChoice of(List<Need> needs, List<WaterContainerView> available, Limit limit) {
        return new Search(needs, available, limit).best();
    }

    /** A container that is used, for one need of its group, as far as it goes. */
    private record Use(WaterContainerView container, int need, int tenths, boolean over, Cost cost) {}

    /** A choice among the containers looked at so far; the last use and the choice before it. */
    private record Half(
            int[] covered,
            Cost cost,
            @Nullable Use last,
            @Nullable Half before) {

        boolean isAsGoodAs(Half other) {
            if (cost.lifts() > other.cost.lifts()) {
                return false;
            }
            for (int need = 0; need < covered.length; need++) {
                if (covered[need] < other.covered[need]) {
                    return false;
                }
            }
            return true;
        }
    }

    /** Needs of one role with the containers that may hold them; other roles share nothing but the limit with them. */
    private record Group(List<Need> needs, List<WaterContainerView> containers) {}

    /** A whole choice for a group. */
    private record Whole(List<Half> halves, Cost cost) {}

    private static final class Search {

        private final List<Group> groups = new ArrayList<>();
        private final Limit limit;
        private final int mostLifts;

        Search(List<Need> needs, List<WaterContainerView> available, Limit limit) {
            this.limit = limit;
            Map<ContainerRole, List<Need>> byRole = new EnumMap<>(ContainerRole.class);
            needs.stream()
                    .filter(need -> need.tenths() > 0)
                    .forEach(need -> byRole.computeIfAbsent(need.role(), none -> new ArrayList<>())
                            .add(need));
            byRole.forEach((role, same) -> groups.add(new Group(
                    same,
                    available.stream()
                            .filter(container -> container.role() == role)
                            // Large ones first, so that needs are soon covered and little is tried beyond that.
                            .sorted(Comparator.comparing(WaterContainerView::pumped)
                                    .reversed()
                                    .thenComparing(Comparator.comparingDouble((WaterContainerView container) ->
                                                    container.size().litres())
                                            .reversed()))
                            .toList())));
            this.mostLifts = (int) groups.stream()
                    .flatMap(group -> group.containers().stream())
                    .filter(container -> !container.pumped())
                    .count();
        }

        /** With as many lifts as make it best; each number of lifts has a limit of its own. */
        ContainerChoice best() {
            // No choice is better than this one, since no limit is higher than that of a single lift.
            List<Whole> best = solved(1, mostLifts).orElseThrow();
            Cost bound = cost(best);
            int first = mostLifts > MOST_LIFTED_EXACTLY ? bound.lifts() : 0;
            Optional<Cost> least = Optional.empty();
            for (int lifts = first; lifts <= mostLifts; lifts++) {
                Optional<List<Whole>> tried = solved(Math.max(1, lifts), lifts);
                Cost before = least.orElse(Cost.WORST);
                if (tried.isPresent() && cost(tried.get()).compareTo(before) < 0) {
                    best = tried.get();
                    least = Optional.of(cost(best));
                }
                int now = lifts;
                if (least.filter(cost -> cost.isAsGoodAs(bound) && cost.lifts() <= now)
                        .isPresent()) {
                    break;
                }
            }
            return chosen(best, cost(best));
        }

        private static Cost cost(List<Whole> wholes) {
            return wholes.stream().map(Whole::cost).reduce(Cost.NONE, Cost::plus);
        }

        /**
         * The best for all groups together.
         *
         * @param limitOf how many lifts the limit is that of
         * @param most lifts in all
         */
        private Optional<List<Whole>> solved(int limitOf, int most) {
            List<List<Whole>> perGroup = new ArrayList<>();
            for (Group group : groups) {
                perGroup.add(wholes(group, limitOf, most));
            }
            return shared(perGroup, most);
        }

        /** The lifts are shared out among the groups so that they cost least together; empty where there are too many. */
        private static Optional<List<Whole>> shared(List<List<Whole>> perGroup, int most) {
            record Sharing(List<Whole> chosen, Cost cost) {}
            Map<Integer, Sharing> byLifts = new TreeMap<>(Map.of(0, new Sharing(List.of(), Cost.NONE)));
            for (List<Whole> group : perGroup) {
                Map<Integer, Sharing> next = new TreeMap<>();
                byLifts.values()
                        .forEach(sharing -> group.forEach(whole -> {
                            Cost cost = sharing.cost().plus(whole.cost());
                            if (cost.lifts() <= most) {
                                List<Whole> chosen = new ArrayList<>(sharing.chosen());
                                chosen.add(whole);
                                next.merge(
                                        cost.lifts(),
                                        new Sharing(chosen, cost),
                                        (one, other) -> one.cost().compareTo(other.cost()) <= 0 ? one : other);
                            }
                        }));
                byLifts = next;
            }
            return byLifts.values().stream()
                    .min(Comparator.comparing(Sharing::cost))
                    .map(Sharing::chosen);
        }

        /** Of a group the best choice for each number of lifts. */
        private List<Whole> wholes(Group group, int limitOf, int most) {
            Optional<List<Half>> exact = halves(group, limitOf, most);
            if (exact.isPresent()) {
                return bestByLifts(group, exact.get());
            }
            return List.of(oneAfterTheOther(group, limitOf, most));
        }

        private static List<Whole> bestByLifts(Group group, List<Half> halves) {
            Map<Integer, Whole> best = new LinkedHashMap<>();
            for (Half half : halves) {
                Cost cost = half.cost().without(without(group, half));
                best.merge(
                        cost.lifts(),
                        new Whole(List.of(half), cost),
                        (one, other) -> one.cost().compareTo(other.cost()) <= 0 ? one : other);
            }
            return List.copyOf(best.values());
        }

        private static int without(Group group, Half half) {
            int without = 0;
            for (int need = 0; need < group.needs().size(); need++) {
                without += group.needs().get(need).tenths() - half.covered()[need];
            }
            return without;
        }

        /** The choices of which none is worse than another; empty where there are too many. */
        private Optional<List<Half>> halves(Group group, int limitOf, int most) {
            int count = group.needs().size();
            List<Half> kept = List.of(new Half(new int[count], Cost.NONE, null, null));
            for (WaterContainerView container : group.containers()) {
                List<Half> more = new ArrayList<>(kept);
                for (Half half : kept) {
                    for (int need = 0; need < count; need++) {
                        extended(group, half, container, need, limitOf, most, more);
                    }
                }
                kept = undominated(more, most);
                if (kept.size() > MOST_KEPT) {
                    if (count > 1) {
                        return Optional.empty();
                    }
                    kept = thinned(kept, group.needs().getFirst().tenths());
                }
            }
            return Optional.of(kept);
        }

        private void extended(
                Group group,
                Half half,
                WaterContainerView container,
                int need,
                int limitOf,
                int most,
                List<Half> into) {
            int missing = group.needs().get(need).tenths() - half.covered()[need];
            if (missing <= 0) {
                return;
            }
            for (Use use : uses(container, group.needs().get(need), need, limitOf)) {
                if (half.cost().lifts() + use.cost().lifts() <= most) {
                    int[] covered = half.covered().clone();
                    covered[need] += Math.min(missing, use.tenths());
                    into.add(new Half(covered, half.cost().plus(use.cost()), use, half));
                }
            }
        }

        /** Filled as far as one person should lift it, and full where that is more. */
        private List<Use> uses(WaterContainerView container, Need need, int index, int limitOf) {
            int full = (int) Math.floor(container.size().litres() * TENTHS + ROUNDING);
            int pooled = container.van().isEmpty() ? 1 : 0;
            long grams = Math.round(container.empty().kilograms() * GRAMS_PER_KILOGRAM);
            if (need.filledThere()) {
                return container.pumped()
                        ? List.of()
                        : List.of(new Use(container, index, full, false, new Cost(0, 0, pooled, 0, grams, 1)));
            }
            if (container.pumped()) {
                return List.of(new Use(container, index, full, false, new Cost(0, 0, pooled, 0, grams, 1)));
            }
            int within = Math.min(full, withinTenths(container, need, limit.kilograms(container, limitOf)));
            List<Use> uses = new ArrayList<>();
            if (within > 0) {
                uses.add(new Use(container, index, within, false, new Cost(0, 0, pooled, 1, grams, 1)));
            }
            if (within < full) {
                uses.add(new Use(container, index, full, true, new Cost(0, 1, pooled, 1, grams, 1)));
            }
            return uses;
        }

        private static List<Half> undominated(List<Half> halves, int most) {
            List<Half> cheapestFirst = new ArrayList<>(halves);
            // A stable sort: of equal ones the first stays, so the same question has the same answer.
            cheapestFirst.sort(Comparator.comparing(Half::cost));
            return halves.getFirst().covered().length == 1
                    ? coveringMore(cheapestFirst, most)
                    : undominated(cheapestFirst);
        }

        private static List<Half> undominated(List<Half> cheapestFirst) {
            List<Half> kept = new ArrayList<>();
            for (Half half : cheapestFirst) {
                if (kept.size() <= MOST_KEPT && kept.stream().noneMatch(better -> better.isAsGoodAs(half))) {
                    kept.add(half);
                }
            }
            return kept;
        }

        /** The same of a single need, by what cheaper ones with as few lifts cover. */
        private static List<Half> coveringMore(List<Half> cheapestFirst, int most) {
            int[] covered = new int[most + 1];
            Arrays.fill(covered, -1);
            List<Half> kept = new ArrayList<>();
            for (Half half : cheapestFirst) {
                int lifts = half.cost().lifts();
                if (half.covered()[0] > covered[lifts]) {
                    kept.add(half);
                    for (int more = lifts; more <= most; more++) {
                        covered[more] = Math.max(covered[more], half.covered()[0]);
                    }
                }
            }
            return kept;
        }

        /** Of choices that cover nearly the same with as many lifts the cheapest. */
        private static List<Half> thinned(List<Half> halves, int tenths) {
            record Like(int covered, int lifts) {}
            int width = Math.max(1, tenths / MOST_LEVELS);
            Map<Like, Half> kept = new LinkedHashMap<>();
            for (Half half : halves) {
                kept.putIfAbsent(
                        new Like(
                                half.covered()[0] == tenths ? Integer.MAX_VALUE : half.covered()[0] / width,
                                half.cost().lifts()),
                        half);
            }
            return List.copyOf(kept.values());
        }

        private Whole oneAfterTheOther(Group group, int limitOf, int most) {
            List<Need> largestFirst = new ArrayList<>(group.needs());
            largestFirst.sort(Comparator.comparingInt(Need::tenths).reversed());
            List<WaterContainerView> free = new ArrayList<>(group.containers());
            Map<Need, Half> chosen = new HashMap<>();
            Cost cost = Cost.NONE;
            int left = most;
            for (Need need : largestFirst) {
                Group alone = new Group(List.of(need), List.copyOf(free));
                Whole best = bestByLifts(alone, halves(alone, limitOf, left).orElseThrow()).stream()
                        .min(Comparator.comparing(Whole::cost))
                        .orElseThrow();
                Half half = best.halves().getFirst();
                used(half).forEach(use -> free.remove(use.container()));
                chosen.put(need, half);
                cost = cost.plus(best.cost());
                left -= best.cost().lifts();
            }
            return new Whole(
                    group.needs().stream()
                            .map(need -> Optional.ofNullable(chosen.get(need)).orElseThrow())
                            .toList(),
                    cost);
        }

        private static List<Use> used(Half half) {
            List<Use> uses = new ArrayList<>();
            @Nullable Half at = half;
            while (at != null) {
                Use last = at.last();
                if (last != null) {
                    uses.addFirst(last);
                }
                at = at.before();
            }
            return uses;
        }

        private ContainerChoice chosen(List<Whole> wholes, Cost cost) {
            Map<String, Served> served = new LinkedHashMap<>();
            for (int at = 0; at < wholes.size(); at++) {
                List<Need> needs = groups.get(at).needs();
                List<Half> halves = wholes.get(at).halves();
                for (int need = 0; need < needs.size(); need++) {
                    // One choice for all needs of the group, or one for each.
                    boolean together = halves.size() == 1;
                    int index = together ? need : 0;
                    List<Use> uses = used(halves.get(together ? 0 : need)).stream()
                            .filter(use -> use.need() == index)
                            .toList();
                    served.put(needs.get(need).key(), filled(needs.get(need), uses, Math.max(1, cost.lifts())));
                }
            }
            return new ContainerChoice(served, cost);
        }

        /** Full ones do not slosh, so all but one are filled as far as they may be. */
        private Served filled(Need need, List<Use> uses, int lifts) {
            List<Use> order = new ArrayList<>(uses);
            order.sort(Comparator.comparing((Use use) -> use.container().pumped())
                    .reversed()
                    .thenComparing(Use::over)
                    .thenComparing(Comparator.comparingInt(Use::tenths).reversed()));
            List<Filled> filled = new ArrayList<>();
            int left = need.tenths();
            for (Use use : order) {
                int tenths = Math.min(left, use.tenths());
                left -= tenths;
                boolean lifted = !use.container().pumped() && !need.filledThere();
                filled.add(new Filled(
                        use.container(),
                        Volume.ofLitres(tenths / (double) TENTHS),
                        lifted
                                && tenths
                                        > withinTenths(
                                                use.container(), need, limit.kilograms(use.container(), lifts))));
            }
            return new Served(filled, Volume.ofLitres(left / (double) TENTHS));
        }
    }

    private static int withinTenths(WaterContainerView container, Need need, double limit) {
        return (int) Math.max(
                0, Math.floor((limit - container.empty().kilograms()) / need.kilogramsPerLitre() * TENTHS + ROUNDING));
    }
}
