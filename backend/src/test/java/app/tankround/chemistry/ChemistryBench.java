package app.tankround.chemistry;

import app.tankround.units.Conductivity;
import app.tankround.units.GravityReference;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;
import app.tankround.units.Temperature;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.IntToDoubleFunction;

/** Prints how many conversions and verdicts one core makes in a second, as the best of some rounds; run by hand. */
final class ChemistryBench {

    private static final long DAY = 86_400;
    private static final int ROUNDS = 7;
    private static final int AT_ONCE = 100;
    private static final long NANOS_A_ROUND = 500_000_000;
    private static final ThreadMXBean CLOCK = ManagementFactory.getThreadMXBean();

    private ChemistryBench() {}

    public static void main(String[] args) {
        print(
                "density of seawater",
                i -> SeawaterDensity.ofSeawater(salinity(i), temperature(i)).value());
        print(
                "salinity from density",
                i -> SeawaterDensity.toSalinity(1000 + i % 30, new Temperature(25))
                        .value());
        print(
                "specific gravity",
                i -> SeawaterGravity.ofSalinity(salinity(i), GravityReference.AT_20_20)
                        .value());
        print(
                "salinity from specific gravity",
                i -> SeawaterGravity.toSalinity(SpecificGravity.of(1.001 + 0.001 * (i % 30), GravityReference.AT_20_20))
                        .value());
        print(
                "conductivity",
                i -> PracticalSalinity.toConductivity(salinity(i), temperature(i))
                        .millisiemensPerCentimetre());
        print(
                "salinity from conductivity",
                i -> PracticalSalinity.fromConductivity(new Conductivity(1 + i % 50), new Temperature(25))
                        .practical());
        print("un-ionised ammonia", i -> UnionisedAmmonia.fraction(8, temperature(i), salinity(i)));
        print(
                "conformity probability",
                i -> Judgement.of(30 + 0.1 * (i % 100), 0.5, 30.0, 35.0, DecisionRule.GUARD_BAND)
                        .inside());
        for (boolean gravity : new boolean[] {false, true}) {
            InstrumentHistory history = tenChecks(gravity);
            SalinityScale scale = history.facts().scale();
            print(
                    "verdict with ten checks, " + scale.unit(),
                    i -> SalinityVerdictRule.judge(
                                    history,
                                    new SalinityReading(scale.reading(30 + i % 10), (i % 300) * DAY, null),
                                    Target.between(30, 35),
                                    DecisionRule.GUARD_BAND)
                            .correctedValue());
        }
    }

    private static Salinity salinity(int i) {
        return new Salinity(5 + i % 35);
    }

    private static Temperature temperature(int i) {
        return new Temperature(15 + i % 15);
    }

    private static InstrumentHistory tenChecks(boolean gravity) {
        SalinityScale scale =
                gravity ? SalinityScale.specificGravity(GravityReference.AT_20_20) : SalinityScale.practicalSalinity();
        InstrumentFacts facts = UncertaintyDefaults.instrument(InstrumentKind.REFRACTOMETER, scale);
        List<CalibrationCheck> checks = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            double off = (i % 3 - 1) * 0.3 * facts.permittedError();
            checks.add(new CalibrationCheck(
                    "check " + i,
                    i * 30 * DAY,
                    List.of(
                            point(StandardRole.ZERO, "pure", scale.reading(0), off),
                            point(StandardRole.WORKING_RANGE, "A", scale.reading(35), off))));
        }
        return InstrumentHistory.of(facts, checks);
    }

    private static CheckPoint point(StandardRole role, String standard, double trueValue, double off) {
        double read = trueValue + off;
        return new CheckPoint(
                role,
                standard,
                StandardState.SOUND,
                trueValue,
                0,
                List.of(read, read, read),
                List.of(trueValue, trueValue, trueValue),
                20.0,
                22.0);
    }

    /** By the time of the processor, so that other work on the machine does not count. */
    private static void print(String what, IntToDoubleFunction once) {
        double best = Double.POSITIVE_INFINITY;
        double kept = 0;
        for (int round = 0; round < ROUNDS; round++) {
            long begin = CLOCK.getCurrentThreadCpuTime();
            int times = 0;
            while (CLOCK.getCurrentThreadCpuTime() - begin < NANOS_A_ROUND) {
                for (int i = 0; i < AT_ONCE; i++) {
                    kept += once.applyAsDouble(times + i);
                }
                times += AT_ONCE;
            }
            best = Math.min(best, (double) (CLOCK.getCurrentThreadCpuTime() - begin) / times);
        }
        System.out.printf(Locale.ROOT, "%-45s %10.3f us  %10.0f a second  (%g)%n", what, best / 1000, 1e9 / best, kept);
    }
}
