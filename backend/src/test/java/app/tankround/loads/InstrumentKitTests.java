package app.tankround.loads;

import static app.tankround.testing.TestInstruments.check;
import static app.tankround.testing.TestInstruments.electrode;
import static app.tankround.testing.TestInstruments.history;
import static app.tankround.testing.TestInstruments.instrument;
import static app.tankround.testing.TestInstruments.standard;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.PersonId;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.ChosenStandard;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentView;
import app.tankround.schedule.DueCheck;
import app.tankround.schedule.TaskView;
import app.tankround.testing.TestInstruments;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** The rules are our own. */
class InstrumentKitTests {

    private static final Instant LEAVES = Instant.parse("2026-11-25T06:20:00Z");
    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
    private static final PersonId NOOR = PersonId.of(new UUID(1, 1));
    private static final PersonId IVO = PersonId.of(new UUID(1, 2));
    private static final ChosenStandard STANDARD =
            new ChosenStandard(Optional.of(standard("S-35", "35", "A", TODAY)), Optional.empty(), Optional.empty());

    @Test
    void takesTheSoundInstrumentAndNoStandardWhileNoCheckIsDue() {
        InstrumentKit kit = choose(List.of(), meter("C-1", NOOR, 40, 35), meter("C-2", null, 5, 35));
        assertThat(kit.lines()).extracting(LoadLine::key).containsExactly("instrument:C-2");
        assertThat(kit.notes()).isEmpty();
    }

    @Test
    void ofTwoSoundOnesTakesTheTechniciansOwn() {
        assertThat(choose(List.of(), meter("C-1", null, 5, 35), meter("C-2", NOOR, 5, 35))
                        .lines())
                .extracting(LoadLine::key)
                .containsExactly("instrument:C-2");
    }

    @Test
    void takesAnInstrumentForWhatIsTestedAndNamesTheKitWhereThereIsNoOther() {
        CalibrationHistory electrode = history(electrode("P-1"), List.of());
        CalibrationHistory kit = history(TestInstruments.kit("K-NO3", Quantity.NITRATE), List.of());
        CalibrationHistory ofAnother = history(TestInstruments.kit("K-PO4", Quantity.PHOSPHATE), List.of());

        InstrumentKit chosen = InstrumentKit.choose(
                List.of(electrode, kit, ofAnother), asked(false, List.of(), List.of()), Work.weights());

        assertThat(chosen.lines()).extracting(LoadLine::key).containsExactly("instrument:P-1");
        assertThat(chosen.readOn()).containsExactly(Quantity.PH);
        assertThat(chosen.kits()).containsOnlyKeys(Quantity.NITRATE);
        LoadRules.Needs needs = LoadRules.of(
                Work.van(25, 1.2),
                0.9,
                Work.weights(),
                List.of(Work.at(1)
                        .does(
                                TaskView.test(Quantity.PH),
                                TaskView.test(Quantity.NITRATE),
                                TaskView.test(Quantity.CALCIUM))),
                chosen,
                LoadLevels.PLANNED,
                List.of());
        assertThat(needs.lines().stream()
                        .filter(line -> line.group() == LoadGroup.TEST_KITS)
                        .map(LoadLine::item))
                .containsExactly(
                        LoadText.of("loads.item.kit-named", Quantity.NITRATE, "K-NO3", "Meter"),
                        LoadText.of("loads.item.kit", Quantity.CALCIUM));
    }

    /** Two tests are left, and the third stop asks for the third. */
    @Test
    void namesTheStopsThatTheTestsOfAKitDoNotReach() {
        InstrumentView kit = kit(null);
        LoadLine line = tested(kit, Map.of(kit.id(), 2));
        LoadCaution caution = line.caution().orElseThrow();
        assertThat(caution.what())
                .isEqualTo(LoadText.of("loads.kit.short", "K-NO3", Integer.valueOf(2), Integer.valueOf(3)));
        assertThat(caution.without()).extracting(StopShare::position).containsExactly(3);
        assertThat(tested(kit, Map.of(kit.id(), 0)).caution().orElseThrow().without())
                .extracting(StopShare::position)
                .containsExactly(1, 2, 3);
    }

    @Test
    void saysNothingOfAKitThatIsEnoughOrOfWhichNobodyKnows() {
        InstrumentView kit = kit(null);
        assertThat(tested(kit, Map.of(kit.id(), 3)).caution()).isEmpty();
        assertThat(tested(kit, Map.of()).caution()).isEmpty();
    }

    @Test
    void takesNoKitThatIsGoodNoMoreAndSaysSo() {
        assertThat(tested(kit(TODAY), Map.of()).caution()).isEmpty();
        LoadLine line = tested(kit(TODAY.minusDays(1)), Map.of());
        assertThat(line.item()).isEqualTo(LoadText.of("loads.item.kit", Quantity.NITRATE));
        LoadCaution caution = line.caution().orElseThrow();
        assertThat(caution.what()).isEqualTo(LoadText.of("loads.kit.expired", "K-NO3", TODAY.minusDays(1)));
        assertThat(caution.without()).hasSize(3);
    }

    private static InstrumentView kit(@Nullable LocalDate expiresOn) {
        InstrumentView kit = TestInstruments.kit("K-NO3", Quantity.NITRATE);
        return new InstrumentView(
                kit.id(),
                kit.code(),
                kit.name(),
                kit.kind(),
                kit.quantity(),
                kit.unit(),
                kit.gravityReference(),
                kit.graduation(),
                kit.compensation(),
                kit.resolution(),
                kit.rangeLow(),
                kit.rangeHigh(),
                kit.permittedError(),
                kit.checkIntervalDays(),
                kit.times(),
                Optional.of("A"),
                Optional.ofNullable(expiresOn),
                kit.purchasedOn(),
                kit.retiredOn(),
                kit.holder(),
                kit.version());
    }

    /** The line of the kit where each of three stops asks for one test. */
    private static LoadLine tested(InstrumentView kit, Map<InstrumentId, Integer> testsLeft) {
        InstrumentKit chosen = InstrumentKit.choose(
                List.of(history(kit, List.of())), asked(false, List.of(), List.of(), testsLeft), Work.weights());
        return LoadRules.of(
                        Work.van(25, 1.2),
                        0.9,
                        Work.weights(),
                        Stream.of(1, 2, 3)
                                .map(position -> Work.at(position).does(TaskView.test(Quantity.NITRATE)))
                                .toList(),
                        chosen,
                        LoadLevels.PLANNED,
                        List.of())
                .lines()
                .stream()
                .filter(line -> line.group() == LoadGroup.TEST_KITS)
                .findFirst()
                .orElseThrow();
    }

    @Test
    void leavesTheInstrumentsOfOthersAlone() {
        InstrumentKit kit = choose(List.of(), meter("C-1", IVO, 5, 35));
        assertThat(kit.lines()).isEmpty();
        assertThat(kit.notes()).extracting(LoadText::code).containsExactly("loads.note.no-salinity-instrument");
    }

    @Test
    void saysWhatIsTestedAndHasNothingToBeReadOn() {
        CalibrationHistory ofAnother = history(electrode("P-01", IVO), List.of());
        InstrumentKit kit =
                InstrumentKit.choose(List.of(ofAnother), asked(false, List.of(), List.of()), Work.weights());
        assertThat(kit.lines()).isEmpty();
        assertThat(kit.notes()).containsExactly(LoadText.of("loads.note.no-instrument", Quantity.PH));
    }

    @Test
    void bringsTheStandardForACheckThatIsDue() {
        CalibrationHistory meter = meter("C-1", NOOR, 29, 35);
        InstrumentKit kit = choose(List.of(due(meter, STANDARD)), meter);
        assertThat(kit.lines()).extracting(LoadLine::key).containsExactly("instrument:C-1", "standard:S-35");
        assertThat(kit.lines())
                .extracting(
                        line -> line.stops().stream().map(StopShare::siteName).toList())
                .containsExactly(List.of(), List.of("Harbour Dental"));
        assertThat(kit.notes()).isEmpty();
        assertThat(choose(List.of(), meter).lines()).hasSize(1);
    }

    @Test
    void takesWhatTheTechnicianHasToCheckThoughNothingIsReadOnItToday() {
        CalibrationHistory meter = meter("C-1", NOOR, 31, 35);
        InstrumentKit kit = InstrumentKit.choose(
                List.of(meter), asked(false, List.of(due(meter, STANDARD)), List.of(meter)), Work.weights());
        assertThat(kit.lines()).extracting(LoadLine::key).containsExactly("instrument:C-1", "standard:S-35");
        assertThat(InstrumentKit.choose(List.of(meter), asked(false, List.of(), List.of()), Work.weights())
                        .lines())
                .isEmpty();
    }

    @Test
    void oneBottleServesSeveralInstruments() {
        CalibrationHistory one = meter("C-1", NOOR, 31, 35);
        CalibrationHistory other = meter("C-2", NOOR, 31, 35);
        InstrumentKit kit = choose(List.of(due(one, STANDARD), due(other, STANDARD)), one, other);
        assertThat(kit.lines())
                .extracting(LoadLine::key)
                .containsExactly("instrument:C-1", "standard:S-35", "instrument:C-2");
        assertThat(kit.lines().get(1).workings())
                .extracting(text -> text.args().getFirst())
                .containsExactly("C-1", "C-2");
    }

    @Test
    void takesASharedOneThatAnotherRoundChecksAndSaysSo() {
        CalibrationHistory meter = meter("C-1", null, 45, 35);
        InstrumentKit kit = InstrumentKit.choose(
                List.of(meter), asked(true, List.of(due(meter, STANDARD)), List.of()), Work.weights());
        assertThat(kit.lines()).extracting(LoadLine::key).containsExactly("instrument:C-1", "standard:S-35");
        assertThat(kit.notes()).extracting(LoadText::code).containsExactly("loads.note.instrument-unsound");
    }

    @Test
    void saysThatThereIsNoStandardWhereTheRoundsOwnChecksDoNot() {
        CalibrationHistory meter = meter("C-1", null, 45, 35);
        var none = new ChosenStandard(Optional.empty(), Optional.empty(), Optional.of(ChosenStandard.Shortage.EXPIRED));
        assertThat(InstrumentKit.choose(
                                List.of(meter), asked(true, List.of(due(meter, none)), List.of()), Work.weights())
                        .notes())
                .extracting(LoadText::code)
                .containsExactly("loads.note.instrument-unsound", "loads.note.no-standard");
        assertThat(choose(List.of(due(meter, none)), meter).notes()).isEmpty();
        CalibrationHistory own = meter("C-2", NOOR, 45, 35);
        assertThat(InstrumentKit.choose(
                                List.of(own), asked(false, List.of(due(own, none)), List.of(own)), Work.weights())
                        .lines())
                .as("nothing can be done with it on the way")
                .isEmpty();
    }

    @Test
    void leavesASuspectOneAtTheDepotAndOffersAnother() {
        InstrumentKit kit = choose(List.of(), meter("R-02", NOOR, 1, 32), meter("R-05", null, 1, 35));
        assertThat(kit.lines()).extracting(LoadLine::key).containsExactly("instrument:R-05");
        assertThat(kit.notes()).containsExactly(LoadText.of("loads.note.stays.SUSPECT", "R-02", "R-05"));
    }

    @Test
    void offersOneOfTheSameKindFirstThoughNoSalinityIsAskedFor() {
        CalibrationHistory suspect = meter("R-02", NOOR, 1, 32);
        CalibrationHistory otherKind = history(
                instrument("A-01", InstrumentKind.REFRACTOMETER, NOOR, null),
                List.of(),
                check(LEAVES.minus(Duration.ofDays(1)), 35));
        InstrumentKit kit = InstrumentKit.choose(
                List.of(otherKind, suspect, meter("R-05", null, 1, 35)),
                asked(false, List.of(), List.of()),
                Work.weights());
        assertThat(kit.lines()).extracting(LoadLine::key).containsExactly("instrument:R-05");
        assertThat(kit.notes()).containsExactly(LoadText.of("loads.note.stays.SUSPECT", "R-02", "R-05"));
    }

    @Test
    void saysSoWhereNoOtherCanBeTrusted() {
        InstrumentKit kit = choose(List.of(), meter("R-02", NOOR, 1, 32));
        assertThat(kit.lines()).isEmpty();
        assertThat(kit.notes())
                .extracting(LoadText::code)
                .containsExactly("loads.note.no-salinity-instrument", "loads.note.stays.SUSPECT.none");
    }

    private static InstrumentKit choose(List<DueCheck> due, CalibrationHistory... register) {
        return InstrumentKit.choose(List.of(register), asked(true, due, List.of(register)), Work.weights());
    }

    private static InstrumentKit.Asked asked(
            boolean readsSalinity, List<DueCheck> due, List<CalibrationHistory> ofRound) {
        return asked(readsSalinity, due, ofRound, Map.of());
    }

    private static InstrumentKit.Asked asked(
            boolean readsSalinity,
            List<DueCheck> due,
            List<CalibrationHistory> ofRound,
            Map<InstrumentId, Integer> testsLeft) {
        return new InstrumentKit.Asked(
                Optional.of(NOOR),
                TODAY,
                LEAVES,
                readsSalinity,
                Set.of(Quantity.PH, Quantity.NITRATE),
                due,
                due.stream()
                        .filter(check -> ofRound.stream()
                                .anyMatch(history -> history.instrument()
                                        .id()
                                        .equals(check.instrument().id())))
                        .toList(),
                Optional.of(new StopShare(1, "Harbour Dental", BigDecimal.ONE)),
                testsLeft);
    }

    private static DueCheck due(CalibrationHistory history, ChosenStandard standard) {
        return new DueCheck(history.instrument(), DueCheck.Why.DUE, Optional.of(TODAY), 30, standard, Optional.empty());
    }

    /** A meter that showed {@code shown} in a standard of 35, so many days ago. */
    private static CalibrationHistory meter(String code, @Nullable PersonId holder, int daysAgo, double shown) {
        return history(
                instrument(code, InstrumentKind.CONDUCTIVITY_METER, holder, null),
                List.of(),
                check(LEAVES.minus(Duration.ofDays(daysAgo)), shown));
    }
}
