package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.MembraneHealth.Flow;
import app.tankround.chemistry.PretreatmentState.ChlorineTest;
import app.tankround.chemistry.ResinCharge.Made;
import app.tankround.chemistry.SolidsCreep.Cause;
import app.tankround.chemistry.SolidsCreep.Point;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Temperature;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** The plant for purified water against hand-made arithmetic and the rows RO-FLOW-15 and RO-REJ. */
class PurifiedWaterTests {

    private static final OptionalDouble UNKNOWN = OptionalDouble.empty();

    // Membrane

    @Test
    void takesTheColdOutOfAFlowBeforeItBlamesTheMembrane() {
        // RO-FLOW-15: 1800 gal/d at 25 °C are 1266 at 15 °C, by a membrane maker's sheet; 30 % less is no fault.
        MembraneHealth health = membrane(flow(1800, 25), flow(1266, 15), UNKNOWN, UNKNOWN);

        assertThat(health.flowShare().orElseThrow()).isCloseTo(1, within(0.0006));
        assertThat(health.notes()).isEmpty();
    }

    @Test
    void findsTheLossThatIsLeftAtOneTemperature() {
        // 200 L/d at 15 °C are 200 * 1.422 = 284.4 at 25 °C; 284.4 / 400 = 0.711.
        MembraneHealth health = membrane(flow(400, 25), flow(200, 15), UNKNOWN, UNKNOWN);

        assertThat(health.flowShare().orElseThrow()).isCloseTo(0.711, within(0.0005));
        assertThat(codes(health.notes()))
                .containsExactly(PurifiedWaterCode.FLOW_DOWN, PurifiedWaterCode.PRESSURE_UNKNOWN);
        assertThat(health.notes().getFirst().numbers().getFirst()).isCloseTo(71.1, within(0.05));
    }

    @Test
    void takesLessPressureOutOfAFlow() {
        var first = new Flow(400, new Temperature(25), OptionalDouble.of(400));
        var now = new Flow(300, new Temperature(25), OptionalDouble.of(300));

        MembraneHealth health = membrane(first, now, UNKNOWN, UNKNOWN);

        assertThat(health.flowShare().orElseThrow()).isCloseTo(1, within(1e-12));
        assertThat(health.notes()).isEmpty();
    }

    @Test
    void saysThatMoreFlowThanEverIsNoGoodSign() {
        assertThat(codes(membrane(flow(300, 25), flow(420, 25), OptionalDouble.of(300), OptionalDouble.of(90))
                        .notes()))
                .containsExactly(
                        PurifiedWaterCode.REJECTION_LOW, PurifiedWaterCode.FLOW_UP, PurifiedWaterCode.PRESSURE_UNKNOWN);
    }

    @Test
    void tellsWhatTheMembraneHoldsBack() {
        // RO-REJ: 700 before and 21 after are 97 %.
        MembraneHealth good = membrane(null, null, OptionalDouble.of(700), OptionalDouble.of(21));
        MembraneHealth poor = membrane(null, null, OptionalDouble.of(300), OptionalDouble.of(45));
        MembraneHealth exchanged = membrane(null, null, OptionalDouble.of(10), OptionalDouble.of(280));

        assertThat(good.rejection().orElseThrow()).isCloseTo(0.97, within(1e-12));
        assertThat(good.notes()).isEmpty();
        assertThat(poor.notes().getFirst().code()).isEqualTo(PurifiedWaterCode.REJECTION_LOW);
        assertThat(poor.notes().getFirst().numbers().getFirst()).isCloseTo(85, within(1e-9));
        assertThat(poor.notes().getFirst().numbers().getLast()).isCloseTo(90, within(1e-9));
        assertThat(codes(exchanged.notes())).containsExactly(PurifiedWaterCode.PERMEATE_WORSE_THAN_FEED);
    }

    @Test
    void refusesATemperatureThatNoFormulaCovers() {
        Flow frozen = flow(100, 2);

        assertThatThrownBy(() -> membrane(frozen, frozen, UNKNOWN, UNKNOWN)).isInstanceOf(OutOfRangeException.class);
    }

    // Resin

    @Test
    void countsWhatWentIntoTheResin() {
        // 58.44 g of salt are one equivalent: 2922 L with 10 mg/L bring 29.22 g, so 0.5 of them.
        var resin = ResinCharge.of(1.25, List.of(new Made(1461, 10, 0), new Made(2922, 5, 0)));

        assertThat(resin.used()).isCloseTo(0.5, within(0.0001));
        assertThat(resin.litres()).isEqualTo(4383);
        // 0.75 left, at 15 mg/L: 0.75 * 58440 / 15 = 2922 L.
        assertThat(resin.litresLeft(15, 0).orElseThrow()).isCloseTo(2922, within(0.5));
        assertThat(resin.litresLeft(0, 0)).isEmpty();
    }

    @Test
    void countsCarbonDioxideThatNoPenSees() {
        // 5.844 mg/L of salt are 0.1 meq/L, 4.401 mg/L of gas another 0.1: twice the load, half the litres.
        assertThat(ResinCharge.equivalentsPerLitre(5.844, 0)).isCloseTo(0.0001, within(1e-8));
        assertThat(ResinCharge.equivalentsPerLitre(5.844, 4.401)).isCloseTo(0.0002, within(1e-8));
    }

    @Test
    void takesALitreFigureWithTheWaterItWasMadeFor() {
        double capacity = ResinCharge.capacityFor(4000, 10);

        assertThat(capacity).isCloseTo(40 / 58.44, within(0.0001));
        assertThat(ResinCharge.of(capacity, List.of(new Made(1000, 10, 0)))
                        .litresLeft(10, 0)
                        .orElseThrow())
                .isCloseTo(3000, within(1e-6));
    }

    @Test
    void isNeverLessThanSpent() {
        var resin = ResinCharge.of(0.1, List.of(new Made(5844, 10, 0)));

        assertThat(resin.left()).isZero();
        assertThat(resin.litresLeft(10, 0).orElseThrow()).isZero();
    }

    // Before the membrane

    @Test
    void changesAPrefilterByPressureOrByAge() {
        assertThat(PretreatmentState.prefilter(5, 6, OptionalDouble.of(60), 100))
                .isEmpty();
        assertThat(PretreatmentState.prefilter(5, 6, UNKNOWN, 100)).isEmpty();
        assertThat(codes(PretreatmentState.prefilter(6, 6, OptionalDouble.of(100), 100)))
                .containsExactly(PurifiedWaterCode.PREFILTER_CLOGGED, PurifiedWaterCode.PREFILTER_OLD);
    }

    @Test
    void asksForATestAfterTheCarbonByLitres() {
        var clean = Optional.of(clean(OptionalDouble.of(1000), 3));

        assertThat(codes(PretreatmentState.carbon(Optional.empty(), 1000, 1, 6)))
                .containsExactly(PurifiedWaterCode.CHLORINE_NEVER_TESTED);
        assertThat(codes(PretreatmentState.carbon(clean, 1000, 1, 6)))
                .containsExactly(PurifiedWaterCode.CHLORINE_TEST_DUE);
        assertThat(PretreatmentState.carbon(clean, 1001, 1, 6)).isEmpty();
    }

    @Test
    void missesAMeterThatNobodyReadsForAMonthAfterTheTest() {
        assertThat(PretreatmentState.carbon(Optional.of(clean(UNKNOWN, 29)), 1000, 1, 6))
                .isEmpty();
        List<PurifiedWaterNote> notes = PretreatmentState.carbon(Optional.of(clean(UNKNOWN, 30)), 1000, 1, 6);
        assertThat(codes(notes)).containsExactly(PurifiedWaterCode.LITRES_UNKNOWN);
        assertThat(notes.getFirst().numbers()).containsExactly(30.0);
    }

    private static ChlorineTest clean(OptionalDouble litresSince, long daysSince) {
        return new ChlorineTest(OptionalDouble.of(0), OptionalDouble.of(0), litresSince, daysSince);
    }

    @Test
    void tellsChlorineFromChloramine() {
        var chloramine = new ChlorineTest(OptionalDouble.of(0.1), OptionalDouble.of(0.6), OptionalDouble.of(10), 1);
        var free = new ChlorineTest(OptionalDouble.of(0.1), UNKNOWN, OptionalDouble.of(10), 1);

        assertThat(chloramine.chloramine().orElseThrow()).isCloseTo(0.5, within(1e-12));
        assertThat(codes(PretreatmentState.carbon(Optional.of(chloramine), 1000, 1, 6)))
                .containsExactly(PurifiedWaterCode.CHLORINE_PASSES, PurifiedWaterCode.CHLORAMINE_PASSES);
        assertThat(free.chloramine()).isEmpty();
        assertThat(codes(PretreatmentState.carbon(Optional.of(free), 1000, 6, 6)))
                .containsExactly(
                        PurifiedWaterCode.CHLORINE_PASSES,
                        PurifiedWaterCode.CHLORAMINE_UNKNOWN,
                        PurifiedWaterCode.CARBON_OLD);
    }

    // Containers

    @Test
    void airMakesPureWaterConductALittleAndNoMore() {
        // By hand: 10^-1.468 * 420e-6 = 1.430e-5 mol/L; sqrt(10^-6.352 * 1.430e-5) = 2.521e-6 mol/L of ions;
        // times 394.3 S cm2/mol is 0.994 µS/cm. The textbook figure, from memory, is about 1 µS/cm at pH 5.6.
        assertThat(AirEquilibrium.conductivity(AirEquilibrium.OUTDOOR_SHARE).inMicrosiemensPerCentimetre())
                .isCloseTo(0.994, within(0.001));
        assertThat(AirEquilibrium.mostShownSolids()).isEqualTo(1);
    }

    @Test
    void seesAContainerRiseFromNothingToSix() {
        assertThat(SolidsCreep.rises(weekly(0, 0, 1, 2, 3, 4, 5, 6))).isTrue();
        assertThat(SolidsCreep.rises(weekly(0, 0, 1, 0, 0, 1, 0, 0))).isFalse();
        assertThat(SolidsCreep.rises(weekly(0, 0, 0, 0, 0, 0, 6))).isFalse();
        assertThat(SolidsCreep.rises(weekly(0, 3, 6))).isFalse();
    }

    @Test
    void blamesTheContainerWherePureWaterGoesInAndOnlyThisOneRises() {
        SolidsCreep found = SolidsCreep.explain(
                weekly(0, 1, 3, 4, 6), weekly(0, 0, 0, 0, 0), List.of(weekly(0, 0, 1, 0, 0), weekly(0, 0, 0, 0, 0)));

        assertThat(found).isEqualTo(new SolidsCreep(Cause.CONTAINER, Optional.of(0.0), 2, 0));
    }

    @Test
    void blamesTheResinWhereTheWaterThatGoesInIsNotPure() {
        SolidsCreep found = SolidsCreep.explain(
                weekly(0, 1, 3, 4, 6), weekly(0, 1, 2, 4, 5), List.of(weekly(0, 1, 2, 4, 5), weekly(0, 0, 0, 0, 0)));

        assertThat(found).isEqualTo(new SolidsCreep(Cause.RESIN, Optional.of(5.0), 2, 1));
    }

    @Test
    void blamesTheContainerWhereTheResinExplainsLessThanHalf() {
        assertThat(SolidsCreep.explain(weekly(0, 1, 3, 4, 6), weekly(0, 0, 0, 0, 1), List.of(weekly(0, 0, 0, 0, 0)))
                        .cause())
                .isEqualTo(Cause.CONTAINER);
    }

    @Test
    void blamesTheLineWhereAllRiseBehindAGoodResin() {
        assertThat(SolidsCreep.explain(weekly(0, 1, 3, 4, 6), weekly(0, 0, 0, 0, 0), List.of(weekly(0, 1, 2, 3, 5)))
                        .cause())
                .isEqualTo(Cause.LINE);
    }

    @Test
    void blamesTheAirForTheLastDigitOnly() {
        assertThat(SolidsCreep.explain(weekly(0, 0, 1, 1, 1), weekly(0, 0, 0, 0, 0), List.of())
                        .cause())
                .isEqualTo(Cause.AIR);
        assertThat(SolidsCreep.explain(weekly(0, 0, 1, 2, 2), weekly(0, 0, 0, 0, 0), List.of())
                        .cause())
                .isEqualTo(Cause.CONTAINER);
    }

    @Test
    void blamesNobodyWhereNobodyMeasuredWhatGoesIn() {
        assertThat(SolidsCreep.explain(weekly(0, 1, 3, 4, 6), List.of(), List.of())
                        .cause())
                .isEqualTo(Cause.UNKNOWN);
        assertThat(SolidsCreep.explain(weekly(0, 1, 3, 4, 6), List.of(), List.of(weekly(0, 1, 2, 4, 5)))
                        .cause())
                .isEqualTo(Cause.UNKNOWN);
    }

    private static List<Point> weekly(double... solids) {
        return new ArrayList<>(IntStream.range(0, solids.length)
                .mapToObj(week -> new Point(7.0 * week, solids[week]))
                .toList());
    }

    private static Flow flow(double litresPerDay, double celsius) {
        return new Flow(litresPerDay, new Temperature(celsius), UNKNOWN);
    }

    private static MembraneHealth membrane(
            @Nullable Flow first, @Nullable Flow now, OptionalDouble feed, OptionalDouble permeate) {
        return MembraneHealth.of(
                Optional.ofNullable(first),
                Optional.ofNullable(now),
                feed,
                permeate,
                MembraneHealth.USUAL_LOWEST_REJECTION);
    }

    private static List<PurifiedWaterCode> codes(List<PurifiedWaterNote> notes) {
        return notes.stream().map(PurifiedWaterNote::code).toList();
    }
}
