package app.tankround.loads;

import app.tankround.stock.WaterBack;
import app.tankround.units.Salinity;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Which clean systems of a round share a batch although their targets differ a little: the salinity of which most is needed
 * serves all that are within {@value #WITHIN} of it, then the next. Changing a fifth of a system with water that far off moves
 * it by a tenth, less than a refractometer tells; own choice, no source. Steps of plans and sick systems get just their own.
 */
final class SharedSalinities {

    /** Practical salinity. */
    static final double WITHIN = WaterBack.SAME_WITHIN;

    private static final double ROUNDING = 1e-9;

    private final Map<Double, Salinity> shared = new HashMap<>();
    private final Map<Double, Double> litres = new TreeMap<>();

    /** One that is wanted, and how much of it. */
    record Wanted(Salinity salinity, double litres) {}

    SharedSalinities(List<Wanted> wanted) {
        wanted.forEach(one -> litres.merge(one.salinity().practical(), one.litres(), Double::sum));
        List<Double> most = litres.keySet().stream()
                .sorted(Comparator.comparing(
                                (Double salinity) -> litres.getOrDefault(salinity, 0.0), Comparator.reverseOrder())
                        .thenComparing(Comparator.naturalOrder()))
                .toList();
        for (double leader : most) {
            if (!shared.containsKey(leader)) {
                for (double other : most) {
                    if (Math.abs(other - leader) <= WITHIN + ROUNDING) {
                        shared.putIfAbsent(other, Salinity.ofPractical(leader));
                    }
                }
            }
        }
    }

    static boolean isShared(SystemWork work, SalinityGoal goal) {
        return !work.sick() && !goal.exact();
    }

    /** What is mixed for a system. */
    Salinity of(SystemWork work, SalinityGoal goal) {
        return isShared(work, goal) ? of(goal.salinity()) : goal.salinity();
    }

    /** What is mixed for a target. */
    Salinity of(Salinity wanted) {
        return shared.getOrDefault(wanted.practical(), wanted);
    }

    /** That of which most is mixed, the saltier of two that are equal; empty where systems share none. */
    Optional<Salinity> main() {
        Map<Double, Double> mixed = new TreeMap<>();
        litres.forEach((wanted, amount) ->
                mixed.merge(Objects.requireNonNull(shared.get(wanted)).practical(), amount, Double::sum));
        return mixed.entrySet().stream()
                .max(Map.Entry.<Double, Double>comparingByValue().thenComparing(Map.Entry.comparingByKey()))
                .map(most -> Salinity.ofPractical(most.getKey()));
    }
}
