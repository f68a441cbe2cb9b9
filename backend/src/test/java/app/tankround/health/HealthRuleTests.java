package app.tankround.health;

import static app.tankround.health.TestSystems.TODAY;
import static app.tankround.health.TestSystems.point;
import static app.tankround.health.TestSystems.system;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.chemistry.PurifiedWaterCode;
import app.tankround.chemistry.PurifiedWaterNote;
import app.tankround.chemistry.SolidsCreep;
import app.tankround.chemistry.SolidsCreep.Cause;
import app.tankround.chemistry.VerdictCode;
import app.tankround.health.HealthReview.QuarantineDay;
import app.tankround.health.HealthReview.Review;
import app.tankround.health.SystemHealth.State;
import app.tankround.instruments.InstrumentId;
import app.tankround.purification.Place;
import app.tankround.purification.PlantState;
import app.tankround.purification.PlantState.ContainerState;
import app.tankround.readings.Answer;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** The order of the ranking and the ages in it are common practice, no source, unless a test says otherwise. */
class HealthRuleTests {

    @Test
    void ranksWhatHarmsFirstBeforeTheRest() {
        List<SystemFacts> asEntered = List.of(
                system("silent")
                        .visitedEvery(7)
                        .with(point(Quantity.PH, 40, 8).inside())
                        .facts(),
                system("unsure")
                        .with(
                                point(Quantity.NITRATE, 8, 39).is(VerdictCode.UNDECIDED),
                                point(Quantity.NITRATE, 1, 41).is(VerdictCode.UNDECIDED))
                        .facts(),
                system("nitrate")
                        .with(point(Quantity.NITRATE, 1, 80).target(null, 40.0).is(VerdictCode.ABOVE))
                        .facts(),
                system("salty")
                        .with(point(Quantity.SALINITY, 1, 38).target(30.0, 35.0).is(VerdictCode.ABOVE))
                        .facts(),
                system("doubt").with(point(Quantity.SALINITY, 1, 34).inDoubt()).facts(),
                system("fine").with(point(Quantity.PH, 1, 8).inside()).facts(),
                system("hot")
                        .with(point(Quantity.TEMPERATURE, 1, 31)
                                .target(23.0, 27.0)
                                .is(VerdictCode.ABOVE))
                        .facts(),
                system("supply")
                        .of(SystemKind.SUPPLY)
                        .with(point(Quantity.DISSOLVED_SOLIDS, 1, 5)
                                .target(null, 2.0)
                                .is(VerdictCode.ABOVE))
                        .facts());

        List<SystemHealth> ranked = HealthRule.rank(asEntered, TODAY, ZoneOffset.UTC);

        assertThat(ranked)
                .extracting(health -> health.facts().code())
                .containsExactly("hot", "doubt", "supply", "salty", "nitrate", "unsure", "silent", "fine");
    }

    @Test
    void ranksTheFartherOutsideFirstWithinOneKind() {
        SystemFacts little = system("a")
                .with(point(Quantity.NITRATE, 1, 44).target(null, 40.0).is(VerdictCode.ABOVE))
                .facts();
        SystemFacts far = system("b")
                .with(point(Quantity.PHOSPHATE, 1, 1).target(null, 0.5).is(VerdictCode.ABOVE))
                .facts();

        assertThat(HealthRule.rank(List.of(little, far), TODAY, ZoneOffset.UTC))
                .extracting(health -> health.facts().code())
                .containsExactly("b", "a");
    }

    @Test
    void ranksTheSameWhateverTheOrderOfTheFacts() {
        SystemFacts one =
                system("a").with(point(Quantity.PH, 1, 9).is(VerdictCode.ABOVE)).facts();
        SystemFacts two =
                system("b").with(point(Quantity.PH, 1, 9).is(VerdictCode.ABOVE)).facts();

        assertThat(HealthRule.rank(List.of(two, one), TODAY, ZoneOffset.UTC))
                .isEqualTo(HealthRule.rank(List.of(one, two), TODAY, ZoneOffset.UTC));
    }

    @ParameterizedTest
    @EnumSource(names = {"AMMONIA", "NITRITE", "COPPER", "CHLORINE", "FREE_CHLORINE", "TOTAL_CHLORINE", "TEMPERATURE"})
    void takesTheseQuantitiesOutsideForADanger(Quantity quantity) {
        SystemHealth health =
                judge(system("s").with(point(quantity, 1, 99).target(null, 1.0).is(VerdictCode.ABOVE)));

        assertThat(health.worst().orElseThrow().kind()).isEqualTo(ConcernKind.DANGER);
    }

    /** A reading in doubt is not shown as outside, since nobody knows whether it is. */
    @Test
    void neverTakesAReadingInDoubtForOutside() {
        SystemHealth health =
                judge(system("s").with(point(Quantity.TEMPERATURE, 1, 31).inDoubt()));

        assertThat(health.concerns()).extracting(Concern::code).containsExactly(ConcernCode.IN_DOUBT);
    }

    /** Too little oxygen suffocates within hours: common practice, no source. */
    @Test
    void takesTooLittleOxygenForADangerAndTooMuchForNone() {
        assertThat(worst(point(Quantity.OXYGEN, 1, 3).target(5.0, null).is(VerdictCode.BELOW)))
                .isEqualTo(ConcernKind.DANGER);
        assertThat(worst(point(Quantity.OXYGEN, 1, 14).target(5.0, 10.0).is(VerdictCode.ABOVE)))
                .isEqualTo(ConcernKind.OUTSIDE);
    }

    private static ConcernKind worst(SeriesPoint point) {
        return judge(system("s").with(point)).worst().orElseThrow().kind();
    }

    @Test
    void gathersUnderItsInstrumentWhatOnlyTheInstrumentBringsIntoDoubt() {
        InstrumentId electrode = InstrumentId.of(new UUID(7, 1));
        InstrumentId kit = InstrumentId.of(new UUID(7, 2));
        List<SystemFacts> facts = List.of(
                system("a")
                        .with(point(Quantity.PH, 1, 8).with(electrode).inDoubt())
                        .facts(),
                system("b")
                        .with(point(Quantity.PH, 1, 8).with(electrode).inDoubt())
                        .with(point(Quantity.NITRATE, 1, 80).target(null, 40.0).is(VerdictCode.ABOVE))
                        .facts(),
                system("c")
                        .with(point(Quantity.AMMONIA, 1, 2)
                                .target(null, 0.0)
                                .with(kit)
                                .inDoubt())
                        .facts());

        Review review = new Review(TODAY, HealthRule.rank(facts, TODAY, ZoneOffset.UTC), Map.of());

        assertThat(review.needed()).extracting(health -> health.facts().code()).containsExactly("c", "b");
        assertThat(review.needed().getFirst().own().orElseThrow().endangers()).isTrue();
        assertThat(review.needed().getLast().own().orElseThrow().kind()).isEqualTo(ConcernKind.OUTSIDE);
        assertThat(review.instruments())
                .containsExactly(new HealthReview.InstrumentDoubt(electrode, 2, List.of(Quantity.PH)));
        assertThat(review.counts()).containsEntry(State.UNKNOWN, 1L).containsEntry(State.NEEDED, 2L);
    }

    @Test
    void namesAReadingTakenWithAnInstrumentKnownToBeWrong() {
        SystemHealth health =
                judge(system("s").with(point(Quantity.SALINITY, 1, 34).knownWrong()));

        assertThat(health.worst().orElseThrow().code()).isEqualTo(ConcernCode.KNOWN_WRONG);
    }

    @Test
    void namesADangerEvenIfItsInstrumentIsNotTrusted() {
        SystemHealth health = judge(system("s")
                .with(point(Quantity.TEMPERATURE, 1, 31).target(23.0, 27.0).untrusted(VerdictCode.ABOVE)));

        assertThat(health.worst().orElseThrow().kind()).isEqualTo(ConcernKind.DANGER);
    }

    @Test
    void looksAtTheNewestReadingOnly() {
        SystemHealth health = judge(system("s")
                .with(
                        point(Quantity.NITRATE, 8, 80).target(null, 40.0).is(VerdictCode.ABOVE),
                        point(Quantity.NITRATE, 1, 20).target(null, 40.0).inside()));

        assertThat(health.concerns()).isEmpty();
        assertThat(health.state()).isEqualTo(State.STEADY);
    }

    /** Weeks count from 1: day 62 is the last of week nine, day 63 the first of week ten. */
    @ParameterizedTest
    @CsvSource({
        "14, SETTLING, FOUND_EARLY",
        "62, SETTLING, FOUND_EARLY",
        "63, DANGER, FOUND_LATE",
        "400, DANGER, FOUND_LATE"
    })
    void expectsAmmoniaInAYoungSystemAndTakesItForAnAlarmFromWeekTen(int age, ConcernKind kind, ConcernCode code) {
        SystemHealth health = judge(system("s")
                .startedDaysAgo(age)
                .with(point(Quantity.AMMONIA, 1, 0.25).target(null, 0.0).is(VerdictCode.UNDECIDED)));

        assertThat(health.worst().orElseThrow().kind()).isEqualTo(kind);
        assertThat(health.worst().orElseThrow().code()).isEqualTo(code);
        assertThat(health.worst().orElseThrow().numbers()).containsExactly(age / 7L + 1);
    }

    @Test
    void takesNothingFoundForNothingToDo() {
        SystemHealth health = judge(system("s")
                .startedDaysAgo(70)
                .with(point(Quantity.AMMONIA, 1, 0.05)
                        .target(null, 0.0)
                        .answered(Answer.BELOW_DETECTION)
                        .inside()));

        assertThat(health.concerns()).isEmpty();
    }

    /** Trade facts: about week two, passing within one or two weeks without treatment. */
    @ParameterizedTest
    @CsvSource({"6, false", "7, true", "13, true", "27, true", "28, false"})
    void expectsABrownFilmFromTheSecondWeekOn(int age, boolean expected) {
        SystemHealth health = judge(
                system("s").startedDaysAgo(age).with(point(Quantity.PH, 1, 8).inside()));

        assertThat(health.filmWeek().isPresent()).isEqualTo(expected);
        assertThat(health.concerns()).isEmpty();
    }

    /** Trade facts: persisting or returning, look at silicate in the source water. Common practice, no source. */
    @ParameterizedTest
    @CsvSource({"29, 1, 5", "35, 7, 5", "70, 3, 10", "800, 0, 115"})
    void raisesABrownFilmThatIsSeenAfterItsWeeks(int age, int seenDaysAgo, long week) {
        SystemHealth health = judge(system("s")
                .startedDaysAgo(age)
                .withFilm(seenDaysAgo)
                .with(point(Quantity.PH, 1, 8).inside()));

        Concern film = health.worst().orElseThrow();
        assertThat(film.kind()).isEqualTo(ConcernKind.LASTING_FILM);
        assertThat(film.code()).isEqualTo(ConcernCode.FILM_LASTS);
        assertThat(film.numbers()).containsExactly(week);
        assertThat(health.state()).isEqualTo(SystemHealth.State.NEEDED);
    }

    @ParameterizedTest
    @CsvSource({"10, 1", "27, 0", "40, 13"})
    void leavesABrownFilmAloneThatIsSeenInItsWeeks(int age, int seenDaysAgo) {
        SystemHealth health = judge(system("s")
                .startedDaysAgo(age)
                .withFilm(seenDaysAgo)
                .with(point(Quantity.PH, 1, 8).inside()));

        assertThat(health.concerns()).isEmpty();
    }

    @Test
    void raisesABrownFilmInASystemWhoseStartNobodyKnows() {
        SystemHealth health = judge(system("s")
                .startedNobodyKnowsWhen()
                .withFilm(2)
                .with(point(Quantity.PH, 1, 8).inside()));

        assertThat(health.worst().orElseThrow().code()).isEqualTo(ConcernCode.FILM_BACK);
    }

    @Test
    void namesSupplyWaterThatCreepsFromNothingToSix() {
        SystemHealth health = judge(system("s").of(SystemKind.SUPPLY).with(solids(0, 0, 1, 1, 2, 3, 4, 6)));

        Concern creep = health.worst().orElseThrow();
        assertThat(creep.code()).isEqualTo(ConcernCode.SOLIDS_CREEP);
        assertThat(creep.numbers()).containsExactly(49L);
        assertThat(creep.series().getFirst().value()).contains(0.0);
        assertThat(creep.series().getLast().value()).contains(6.0);
    }

    @Test
    void namesACreepBeforeTheLimitIsReached() {
        SystemHealth health = judge(system("s").of(SystemKind.SUPPLY).with(solids(0, 0, 0, 1, 1)));

        assertThat(health.worst().orElseThrow().code()).isEqualTo(ConcernCode.SOLIDS_CREEP);
    }

    @Test
    void takesOneFlickerOfThePenForNoCreep() {
        SystemHealth health = judge(system("s").of(SystemKind.SUPPLY).with(solids(0, 0, 1, 0, 0, 0, 1)));

        assertThat(health.concerns()).isEmpty();
    }

    @Test
    void takesSupplyWaterAtItsLimitForOutside() {
        SystemHealth health = judge(system("s").of(SystemKind.SUPPLY).with(solids(2, 2)));

        assertThat(health.worst().orElseThrow().code()).isEqualTo(ConcernCode.SOLIDS_OVER);
    }

    /** reference/trade-facts.md: with 5 % of the water missing, salinity 35 reads 36.8. */
    @Test
    void advisesToTopUpFirstWhereTheMissingWaterExplainsTheSalinity() {
        SystemHealth health = judge(system("s")
                .withWater(false, 20.0)
                .with(point(Quantity.SALINITY, 1, 36.8).target(30.0, 35.0).is(VerdictCode.ABOVE)));

        assertThat(health.worst().orElseThrow().code()).isEqualTo(ConcernCode.ABOVE_LOW_WATER);
        assertThat(health.worst().orElseThrow().numbers()).containsExactly(50L);
    }

    @Test
    void advisesToTopUpFirstWithoutAShareWhereItDoesNotExplainTheSalinity() {
        SystemHealth health = judge(system("s")
                .withWater(false, 4.0)
                .with(point(Quantity.SALINITY, 1, 40).target(30.0, 35.0).is(VerdictCode.ABOVE)));

        assertThat(health.worst().orElseThrow().code()).isEqualTo(ConcernCode.ABOVE_LOW_WATER);
        assertThat(health.worst().orElseThrow().numbers()).isEmpty();
    }

    @Test
    void saysNothingOfToppingUpWhereTheWaterStoodAtItsMark() {
        SystemHealth health = judge(system("s")
                .withWater(true, null)
                .with(point(Quantity.SALINITY, 1, 36.8).target(30.0, 35.0).is(VerdictCode.ABOVE)));

        assertThat(health.worst().orElseThrow().code()).isEqualTo(ConcernCode.ABOVE);
    }

    @Test
    void namesWhatCannotBeToldOnlyTheSecondTime() {
        SeriesPoint first = point(Quantity.NITRATE, 8, 39).is(VerdictCode.UNDECIDED);
        SeriesPoint second = point(Quantity.NITRATE, 1, 41).is(VerdictCode.UNDECIDED);

        assertThat(judge(system("s").with(first)).concerns()).isEmpty();
        assertThat(judge(system("s").with(first)).state()).isEqualTo(State.UNKNOWN);
        assertThat(judge(system("s").with(first, second)).worst().orElseThrow().code())
                .isEqualTo(ConcernCode.UNDECIDED_TWICE);
    }

    @Test
    void namesWhatWasNotMeasuredTwiceRunning() {
        SystemHealth health = judge(system("s")
                .with(point(Quantity.PH, 1, 8).inside())
                .with(
                        point(Quantity.AMMONIA, 8, 0)
                                .answered(Answer.NOT_MEASURED)
                                .is(VerdictCode.UNDECIDED),
                        point(Quantity.AMMONIA, 1, 0)
                                .answered(Answer.NOT_MEASURED)
                                .is(VerdictCode.UNDECIDED)));

        assertThat(health.worst().orElseThrow().code()).isEqualTo(ConcernCode.NOT_MEASURED_TWICE);
    }

    @ParameterizedTest
    @CsvSource({"7, 10, false", "7, 11, true", "14, 21, false", "14, 22, true"})
    void missesReadingsAfterOneAndAHalfRhythms(int rhythm, int silentDays, boolean missed) {
        SystemHealth health = judge(system("s")
                .visitedEvery(rhythm)
                .with(point(Quantity.PH, silentDays, 8).inside()));

        assertThat(health.worst().isPresent()).isEqualTo(missed);
    }

    @Test
    void neverTakesASystemWithoutAnyReadingForFine() {
        SystemHealth health = judge(system("s"));

        assertThat(health.worst().orElseThrow().code()).isEqualTo(ConcernCode.NEVER_READ);
        assertThat(health.state()).isEqualTo(State.UNKNOWN);
    }

    @Test
    void takesAReadingWithoutATrustedInstrumentForUnknown() {
        SystemHealth health = judge(system("s").with(point(Quantity.PH, 1, 8).untrusted(VerdictCode.INSIDE)));

        assertThat(health.concerns()).isEmpty();
        assertThat(health.state()).isEqualTo(State.UNKNOWN);
    }

    /** Hadfield and Clayton 2011, Journal of Zoo and Wildlife Medicine 42(4): 30 days or more. */
    @ParameterizedTest
    @CsvSource({"0, 1, false", "24, 25, false", "29, 30, false", "30, 31, true"})
    void countsTheDaysOfAQuarantineFromOne(int daysAgo, long day, boolean complete) {
        SystemFacts facts =
                system("q").inQuarantineSince(TODAY.minusDays(daysAgo)).facts();
        List<QuarantineDay> quarantines = new Review(
                        TODAY, HealthRule.rank(List.of(facts), TODAY, ZoneOffset.UTC), Map.of(facts.id(), 30))
                .quarantines();

        assertThat(quarantines).hasSize(1);
        assertThat(quarantines.getFirst().day()).isEqualTo(day);
        assertThat(quarantines.getFirst().complete()).isEqualTo(complete);
        assertThat(quarantines.getFirst().over())
                .isEqualTo(LocalDate.of(2026, 12, 19).minusDays(daysAgo));
    }

    @Test
    void saysWhyAContainerBehindAPlantCreeps() {
        SystemHealth health = judge(system("s")
                .of(SystemKind.SUPPLY)
                .behind(filled(Cause.CONTAINER, null))
                .with(solids(0, 0, 1, 3, 6)));

        Concern creep = health.worst().orElseThrow();
        assertThat(creep.code()).isEqualTo(ConcernCode.SOLIDS_CREEP);
        assertThat(creep.creep().orElseThrow().found().cause()).isEqualTo(Cause.CONTAINER);
    }

    @Test
    void asksNothingOfAContainerForAir() {
        assertThat(judge(system("s")
                                .of(SystemKind.SUPPLY)
                                .behind(filled(Cause.AIR, null))
                                .with(solids(0, 0, 1, 1, 1)))
                        .concerns())
                .isEmpty();
    }

    @Test
    void waitsForTheNextReadingOfAWashedContainer() {
        assertThat(judge(system("s")
                                .of(SystemKind.SUPPLY)
                                .behind(filled(Cause.CONTAINER, TODAY))
                                .with(solids(0, 0, 1, 3, 6)))
                        .concerns())
                .isEmpty();
        assertThat(judge(system("s")
                                .of(SystemKind.SUPPLY)
                                .behind(filled(Cause.CONTAINER, TODAY.minusDays(1)))
                                .with(solids(0, 0, 1, 3, 6)))
                        .concerns())
                .isNotEmpty();
    }

    @Test
    void judgesWaterWithinThePlantByItsOwnLimitOnly() {
        var plant =
                new SystemFacts.Purified("/systems/1/purified-water", List.of(), Map.of("Tap", Place.FEED), Map.of());
        SeriesPoint[] rising = {
            point(Quantity.DISSOLVED_SOLIDS, 3, 250)
                    .at("Tap")
                    .target(null, 500.0)
                    .inside(),
            point(Quantity.DISSOLVED_SOLIDS, 2, 260)
                    .at("Tap")
                    .target(null, 500.0)
                    .inside(),
            point(Quantity.DISSOLVED_SOLIDS, 1, 280)
                    .at("Tap")
                    .target(null, 500.0)
                    .inside(),
            point(Quantity.DISSOLVED_SOLIDS, 0, 300)
                    .at("Tap")
                    .target(null, 500.0)
                    .inside()
        };

        assertThat(judge(system("s").of(SystemKind.SUPPLY).behind(plant).with(rising))
                        .concerns())
                .isEmpty();
        assertThat(judge(system("s").of(SystemKind.SUPPLY).with(rising)).concerns())
                .extracting(Concern::code)
                .containsExactly(ConcernCode.SOLIDS_CREEP);
    }

    @ParameterizedTest
    @CsvSource({
        "CHLORAMINE_PASSES, DANGER",
        "RESIN_SPENT, DISSOLVED_SOLIDS",
        "CHLORINE_TEST_DUE, PLANT_DUE",
        "PREFILTER_CLOGGED, PLANT_DUE"
    })
    void raisesWhatAPlantNeeds(PurifiedWaterCode code, ConcernKind kind) {
        var plant = new SystemFacts.Purified(
                "/systems/1/purified-water",
                List.of(new PurifiedWaterNote(code, List.of(1.0, 2.0))),
                Map.of(),
                Map.of());

        assertThat(judge(system("s").of(SystemKind.SUPPLY).behind(plant).with(solids(0, 0)))
                        .worst()
                        .orElseThrow()
                        .kind())
                .isEqualTo(kind);
    }

    /** A system that is a container itself, and creeps for that cause. */
    private static SystemFacts.Purified filled(Cause cause, @Nullable LocalDate washedOn) {
        var found = new SolidsCreep(cause, Optional.of(0.0), 1, 0);
        var container = new ContainerState(
                WaterSystemId.of(new UUID(1, 1)),
                Optional.empty(),
                "Container 2",
                Optional.empty(),
                Optional.ofNullable(washedOn),
                Optional.of(new PlantState.Creep(0, 6, 28, found)));
        return new SystemFacts.Purified(
                "/systems/1/purified-water", List.of(), Map.of(), Map.of(Optional.empty(), container));
    }

    private static SystemHealth judge(TestSystems system) {
        return HealthRule.judge(system.facts(), TODAY, ZoneOffset.UTC);
    }

    /** Weekly readings, the newest of today, against a limit of 2 mg/L. */
    private static SeriesPoint[] solids(double... values) {
        int[] at = {values.length};
        return Arrays.stream(values)
                .mapToObj(value -> {
                    at[0]--;
                    return point(Quantity.DISSOLVED_SOLIDS, 7 * at[0], value)
                            .target(null, 2.0)
                            .is(value > 2 ? VerdictCode.ABOVE : VerdictCode.INSIDE);
                })
                .toArray(SeriesPoint[]::new);
    }
}
