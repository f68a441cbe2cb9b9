package app.tankround.loads;

import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.instruments.SalinityScales;
import app.tankround.tanks.TargetView;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * The salinity that water for a system is mixed to: the middle of its target, or the one limit it has, unless
 * a plan says otherwise.
 *
 * @param salinity to one decimal, 0 to 50, so that systems of the same target share drums
 * @param assumed whether the system has no target of its own, so that the usual one of its kind was taken
 * @param exact whether it is a step of a plan, so that no other water will do
 */
record SalinityGoal(Salinity salinity, boolean assumed, boolean exact) {

    /** By a target. */
    SalinityGoal(Salinity salinity, boolean assumed) {
        this(salinity, assumed, false);
    }

    /** @param usual the usual targets of the kind of system, which for salt water hold a salinity */
    static SalinityGoal of(List<TargetView> targets, Supplier<List<TargetView>> usual) {
        return target(targets)
                .map(target -> new SalinityGoal(middle(target), false))
                .orElseGet(() -> new SalinityGoal(middle(target(usual.get()).orElseThrow()), true));
    }

    /** What a plan says for the step of a visit. */
    static SalinityGoal ofPlan(double salinity) {
        return new SalinityGoal(Salinity.ofPractical(Math.round(salinity * 10) / 10.0), false, true);
    }

    private static Optional<TargetView> target(List<TargetView> targets) {
        return targets.stream()
                .filter(target -> target.quantity() == Quantity.SALINITY)
                .findFirst();
    }

    private static Salinity middle(TargetView target) {
        SalinityScale scale = SalinityScales.of(target.unit(), target.gravityReference());
        double low = salinity(scale, target.low().or(target::high).orElseThrow());
        double high = salinity(scale, target.high().or(target::low).orElseThrow());
        return Salinity.ofPractical(Math.round((low + high) * 5) / 10.0);
    }

    /** Nothing above 50 can be worked out; a target beyond it is mixed as near as that. */
    private static double salinity(SalinityScale scale, BigDecimal limit) {
        double lowest = scale.readingIn(Salinity.ofPractical(0));
        double highest = scale.readingIn(Salinity.ofPractical(scale.highestSalinity()));
        double within = Math.clamp(limit.doubleValue(), lowest, highest);
        return Math.clamp(scale.toSalinity(within).value(), 0, SeawaterDensity.HIGHEST_SALINITY);
    }
}
