package app.tankround.visits;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.clients.LoneHazard;
import app.tankround.clients.ResidualCurrentTest;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteSafetyView;
import app.tankround.visits.BeforeHands.Chemical;
import app.tankround.visits.BeforeHands.Facts;
import app.tankround.visits.BeforeHands.Said;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** What is said before hands go in fits the site and the day. Common practice, no source, unless named beside it. */
class BeforeHandsTests {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

    @Test
    void saysLittleWhereNothingButATestIsDue() {
        assertThat(codes(facts(safety(ResidualCurrentTest.NOT_ASKED, LoneHazard.NOTHING), false)))
                .singleElement()
                .asString()
                .startsWith("general.");
    }

    @Test
    void asksForThePlugWhereHandsGoIn() {
        assertThat(codes(facts(safety(ResidualCurrentTest.NOT_ASKED, LoneHazard.NOTHING), true)))
                .startsWith("residual-current.NOT_ASKED", "power")
                .hasSize(3);
    }

    @ParameterizedTest
    @EnumSource(
            value = ResidualCurrentTest.class,
            names = {"AGREED", "NOT_AGREED", "NEVER"})
    void saysWhatWasAgreedAboutTheTestWhateverIsDue(ResidualCurrentTest agreed) {
        assertThat(BeforeHands.of(facts(safety(agreed, LoneHazard.NOTHING), false)))
                .contains(new Said("residual-current." + agreed, List.of("Servers on that circuit")));
    }

    @ParameterizedTest
    @EnumSource(
            value = LoneHazard.class,
            names = {"CO2_CELLAR", "PIT", "LADDER", "NIGHT", "OTHER"})
    void saysFirstWhatIsDangerousThere(LoneHazard hazard) {
        assertThat(BeforeHands.of(facts(safety(ResidualCurrentTest.AGREED, hazard), true))
                        .getFirst())
                .isEqualTo(new Said("hazard." + hazard, List.of("Below the bar")));
    }

    @Test
    void speaksOfLiftingAndTheFloorOnlyWhereWaterIsCarried() {
        SiteSafetyView safety = safety(ResidualCurrentTest.AGREED, LoneHazard.NOTHING);
        assertThat(BeforeHands.of(
                        new Facts(safety, true, Optional.of("80 L"), Optional.of("80 L"), Map.of(), List.of(), DAY)))
                .contains(new Said("lifting", List.of("80 L")), new Said("floor", List.of()));
        assertThat(codes(new Facts(safety, true, Optional.of("80 L"), Optional.empty(), Map.of(), List.of(), DAY)))
                .contains("floor")
                .doesNotContain("lifting");
    }

    @Test
    void speaksOfChemicalsAndOfCutSkinWhereTheyMatter() {
        Facts facts = new Facts(
                safety(ResidualCurrentTest.AGREED, LoneHazard.NOTHING),
                true,
                Optional.empty(),
                Optional.empty(),
                Map.of(Chemical.ACID, "Descale the pump with citric acid"),
                List.of("Lobby reef"),
                DAY);
        assertThat(BeforeHands.of(facts))
                .contains(
                        new Said("chemical.ACID", List.of("Descale the pump with citric acid")),
                        new Said("cut-skin.sick", List.of("Lobby reef")));
    }

    @ParameterizedTest
    @CsvSource({
        "Descale the return pump, ACID",
        "Soak the heater in vinegar, ACID",
        "Citric acid bath, ACID",
        "Kalkwasser, LIME",
        "Lime water, LIME",
        "Sodium hypochlorite, BLEACH"
    })
    void knowsWhatBurnsByItsName(String task, Chemical chemical) {
        assertThat(Chemical.in(task)).containsExactly(chemical);
    }

    @ParameterizedTest
    @CsvSource({"Scrape the slime off", "Clean the glass", "Amino boost", "Trim the limestone edge", "Placid pump check"
    })
    void callsNothingDangerousThatIsNot(String task) {
        assertThat(Chemical.in(task)).isEmpty();
    }

    @Test
    void remindsOfSomethingElseEachDayAndOfNothingThatIsSaidAlready() {
        Set<String> general = new HashSet<>();
        List<String> inTurn = IntStream.range(0, 30)
                .mapToObj(days -> {
                    List<Said> said = BeforeHands.of(new Facts(
                            safety(ResidualCurrentTest.AGREED, LoneHazard.NOTHING),
                            true,
                            Optional.of("80 L"),
                            Optional.of("80 L"),
                            Map.of(),
                            List.of("Lobby reef"),
                            DAY.plusDays(days)));
                    return said.getLast().code();
                })
                .toList();
        for (int day = 1; day < inTurn.size(); day++) {
            assertThat(inTurn.get(day)).isNotEqualTo(inTurn.get(day - 1));
        }
        general.addAll(inTurn);
        assertThat(general)
                .hasSizeGreaterThan(3)
                .doesNotContain("general.floor", "general.lifting", "general.cut-skin");
    }

    private static List<String> codes(Facts facts) {
        return BeforeHands.of(facts).stream().map(Said::code).toList();
    }

    private static Facts facts(SiteSafetyView safety, boolean handsIn) {
        return new Facts(safety, handsIn, Optional.empty(), Optional.empty(), Map.of(), List.of(), DAY);
    }

    private static SiteSafetyView safety(ResidualCurrentTest test, LoneHazard hazard) {
        return new SiteSafetyView(
                SiteId.of(UUID.fromString("019503a0-0000-7000-8000-000000000001")),
                test,
                Optional.of("Servers on that circuit"),
                hazard,
                Optional.of("Below the bar"),
                1);
    }
}
