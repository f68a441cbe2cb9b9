package app.tankround.chemistry;

import app.tankround.units.Conductivity;
import app.tankround.units.GravityReference;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;
import app.tankround.units.Temperature;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/** How long one conversion and one verdict take on one core; run by hand. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class ChemistryBench {

    private static final long DAY = 86_400;

    private final InstrumentHistory inSalinity = tenChecks(false);
    private final InstrumentHistory inGravity = tenChecks(true);
    private int i;

    public static void main(String[] args) throws RunnerException {
        new Runner(new OptionsBuilder().include(ChemistryBench.class.getName()).build()).run();
    }

    @Benchmark
    public double densityOfSeawater() {
        i = (i + 1) % 1_000_000;
        return SeawaterDensity.ofSeawater(salinity(i), temperature(i)).value();
    }

    @Benchmark
    public double salinityFromDensity() {
        i = (i + 1) % 1_000_000;
        return SeawaterDensity.toSalinity(1000 + i % 30, new Temperature(25)).value();
    }

    @Benchmark
    public double specificGravity() {
        i = (i + 1) % 1_000_000;
        return SeawaterGravity.ofSalinity(salinity(i), GravityReference.AT_20_20)
                .value();
    }

    @Benchmark
    public double salinityFromSpecificGravity() {
        i = (i + 1) % 1_000_000;
        return SeawaterGravity.toSalinity(SpecificGravity.of(1.001 + 0.001 * (i % 30), GravityReference.AT_20_20))
                .value();
    }

    @Benchmark
    public double conductivity() {
        i = (i + 1) % 1_000_000;
        return PracticalSalinity.toConductivity(salinity(i), temperature(i)).millisiemensPerCentimetre();
    }

    @Benchmark
    public double salinityFromConductivity() {
        i = (i + 1) % 1_000_000;
        return PracticalSalinity.fromConductivity(new Conductivity(1 + i % 50), new Temperature(25))
                .practical();
    }

    @Benchmark
    public double unionisedAmmonia() {
        i = (i + 1) % 1_000_000;
        return UnionisedAmmonia.fraction(8, temperature(i), salinity(i));
    }

    @Benchmark
    public double conformityProbability() {
        i = (i + 1) % 1_000_000;
        return Judgement.of(30 + 0.1 * (i % 100), 0.5, 30.0, 35.0, DecisionRule.GUARD_BAND)
                .inside();
    }

    @Benchmark
    public Object verdictWithTenChecksInSalinity() {
        return verdict(inSalinity);
    }

    @Benchmark
    public Object verdictWithTenChecksInGravity() {
        return verdict(inGravity);
    }

    private SalinityVerdict verdict(InstrumentHistory history) {
        i = (i + 1) % 1_000_000;
        return SalinityVerdictRule.judge(
                history,
                new SalinityReading(history.facts().scale().reading(30 + i % 10), (i % 300) * DAY, null),
                Target.between(30, 35),
                DecisionRule.GUARD_BAND);
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
}
