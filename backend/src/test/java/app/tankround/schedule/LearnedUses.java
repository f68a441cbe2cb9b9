package app.tankround.schedule;

import java.util.List;

/** What is learned of systems of one kind from the parts that their visits used. */
public final class LearnedUses {

    private LearnedUses() {}

    public static List<LearnedUse> of(List<List<Double>> histories) {
        List<LearnedUse.Sums> sums = histories.stream().map(LearnedUses::sums).toList();
        List<LearnedUse.Sums> known =
                sums.stream().filter(each -> each.visits() > 0).toList();
        int visits = known.stream().mapToInt(LearnedUse.Sums::visits).sum();
        double all =
                known.stream().mapToDouble(each -> each.visits() * each.mean()).sum();
        LearnedUse.OfKind kind = visits == 0
                ? LearnedUse.OfKind.NONE
                : new LearnedUse.OfKind(
                        known.size(),
                        visits,
                        all / visits,
                        known.stream().mapToDouble(LearnedUse.Sums::squares).sum());
        return sums.stream().map(each -> LearnedUse.of(each, kind)).toList();
    }

    private static LearnedUse.Sums sums(List<Double> parts) {
        double mean = parts.stream().mapToDouble(Double::doubleValue).average().orElse(1);
        double squares = parts.stream()
                .mapToDouble(part -> (part - mean) * (part - mean))
                .sum();
        return new LearnedUse.Sums(parts.size(), mean, squares);
    }
}
