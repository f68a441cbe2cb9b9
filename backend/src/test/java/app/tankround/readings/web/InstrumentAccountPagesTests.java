package app.tankround.readings.web;

import static app.tankround.tanks.web.PageTester.body;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.chemistry.WeighedSolution.Solute;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.ChosenStandard;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.InstrumentStandings;
import app.tankround.instruments.MadeUpStandards;
import app.tankround.instruments.NewCalibration;
import app.tankround.instruments.NewMadeUpStandard;
import app.tankround.instruments.NewStandard;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRecipe;
import app.tankround.instruments.StandardRegister;
import app.tankround.instruments.StandardView;
import app.tankround.instruments.Standing;
import app.tankround.readings.Bench;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;

/** What an instrument's page says of the check that it failed: one point, one value and one sign throughout. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import({Bench.class, PageTester.class})
class InstrumentAccountPagesTests {

    @Autowired
    PageTester pages;

    @Autowired
    Bench bench;

    @Autowired
    InstrumentRegister instruments;

    @Autowired
    StandardRegister standards;

    @Autowired
    CalibrationService calibrations;

    @Autowired
    InstrumentStandings standings;

    @Autowired
    MadeUpStandards madeUp;

    @Autowired
    ReadingService readings;

    @Autowired
    DecisionRegister decisions;

    @Autowired
    WaterSystems systems;

    InstrumentId meter = InstrumentId.of(new UUID(0, 0));
    String latest = "";

    @BeforeEach
    void setUp() {
        meter = instruments.add(
                bench.instrument(InstrumentKind.PH_METER, Quantity.PH, MeasurementUnit.PH_UNIT, null, "0.01", "0.1"));
    }

    /** 7.15 in 7.00 is 0.15 high where 0.10 is permitted, 9.97 in 10.01 is 0.04 low. */
    @Test
    void namesTheWorstPointWithItsValueAndItsSign() {
        StandardId seven = buffer("7.00");
        StandardId ten = buffer("10.01");
        check(20, point(seven, "7.00", null), point(ten, "10.01", null));
        assertThat(page()).containsPattern("lies within 0\\.\\d+ pH of the truth");
        check(5, point(seven, "7.15", null), point(ten, "9.97", null));

        assertThat(page())
                .contains("it showed 7.150 pH where " + standards.require(seven).code() + " should show 7.000")
                .contains("By that standard it reads high by 0.150 pH;")
                .contains("A check found it high by 0.150 pH, so the interval was halved, from 60 to 30 days.")
                .doesNotContain("reads low by")
                .doesNotContain("It reads high by")
                .doesNotContain("left it off")
                .doesNotContain("off by −");
    }

    @Test
    void asksForABufferOfTheValueAtWhichItFailedAndIsNotClearedByAnother() {
        buffer("7.00");
        StandardId seven = buffer("7.00");
        StandardId ten = buffer("10.01");
        check(20, point(seven, "7.00", null), point(ten, "10.01", null));
        check(5, point(seven, "7.20", null), point(ten, "10.05", null));
        assertThat(page()).contains("Not in " + standards.require(seven).code() + ", in which it failed.");

        check(4, point(ten, "10.01", null));
        assertThat(standings.standing(meter)).isEqualTo(Standing.SUSPECT);
        assertThat(page())
                .contains("it showed 7.200 pH where " + standards.require(seven).code() + " should show 7.000")
                .contains("it reads high by 0.200 pH;")
                .doesNotContain("off by 0.000");
        assertThat(chosen()).isEqualTo(Optional.of(ChosenStandard.Shortage.SAME_AGAIN));

        StandardId fresh = buffer("7.00");
        assertThat(chosen()).isEmpty();
        check(3, point(fresh, "7.00", null));
        assertThat(standings.standing(meter)).isEqualTo(Standing.IN_USE);
    }

    /** 0.008 low in salinity 35, and right in pure water the day after. */
    @Test
    void isNotLedAstrayByAZeroThatPassed() {
        InstrumentId refractometer = bench.refractometer();
        bench.salinityStandard("35");
        StandardId sea = bench.salinityStandard("35");
        StandardId pure = bench.salinityStandard("0");
        bench.check(refractometer, sea, bench.daysAgo(20), "1.0266", "1.0266");
        bench.check(refractometer, sea, bench.daysAgo(5), "1.0186", "1.0186");
        String before = body(pages.get(Role.OFFICE, "/instruments/" + refractometer));
        bench.check(refractometer, pure, bench.daysAgo(4), "1.000", "1.000");

        String page = body(pages.get(Role.OFFICE, "/instruments/" + refractometer));

        String code = standards.require(sea).code();
        String failed = "it showed 1.0186 SG 20/20 where " + code + " (lot L-1) should show 1.0266";
        assertThat(before).contains(failed);
        assertThat(page)
                .contains(failed)
                .contains("A check found it low by 0.0080 SG")
                .contains("it reads low by 0.0080 SG;")
                .contains("Not in " + code)
                .doesNotContain("−0.00")
                .contains("class=\"sr-hatch\"");

        bench.check(refractometer, bench.salinityStandard("35"), bench.daysAgo(3), "1.0186", "1.0186");
        bench.check(refractometer, pure, bench.daysAgo(2), "1.000", "1.000");
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + refractometer)))
                .contains(failed)
                .contains("Adjust or repair")
                .doesNotContain("It was adjusted.");
    }

    /** 1.025 on a scale that reads 0.008 low: what may be far too salt is measured again before anything is checked. */
    @Test
    void namesTheWaterToMeasureAgainRightAfterPuttingItAside() {
        InstrumentId other = bench.refractometer();
        bench.check(other, bench.salinityStandard("35"), bench.daysAgo(1), "1.0266", "1.0266");
        Suspect suspect = suspect();

        String page = body(pages.get(Role.OFFICE, "/instruments/" + suspect.instrument()));

        String where = systems.require(suspect.system()).code() + ", Dining room";
        assertThat(page)
                .containsPattern("Measure with [A-Z]+-?\\d*-?[A-Z0-9]* \\(scale: [^)]*; carried by nobody\\)")
                .containsPattern(
                        "href=\"/systems/" + suspect.system() + "\" ?>Today measure again with [^:]+: Salinity of "
                                + where
                                + "[^<]* It was 1.025 SG 20/20 on [^<]*; corrected by the last check that is 1.03[0-9]+ ± 0.0[0-9]+"
                                + " SG 20/20, S 4[0-9.]+ ± [0-9.]+ .S is practical salinity.\\. The target is [0-9.]+ to [0-9.]+ SG 20/20, and no trusted")
                .doesNotContain("on it alone");
        assertThat(page.indexOf("aside until this page")).isPositive().isLessThan(page.indexOf("Today measure again"));
        assertThat(page.indexOf("Today measure again")).isLessThan(page.indexOf(" again in "));
    }

    /** Two before the failed check and one after it: all are in doubt, none is anything else. */
    @Test
    void countsWhatWasReadWhileSuspectAmongWhatIsInDoubt() {
        Suspect suspect = suspect();
        decisions.register(
                "water-change",
                "water-system",
                suspect.system().value(),
                "/systems/" + suspect.system(),
                "visits.decision.water-change",
                List.of("65", "Dining room"),
                List.of(suspect.since()));

        String page = body(pages.get(Role.OFFICE, "/instruments/" + suspect.instrument()));

        assertThat(page)
                .contains("3 readings on 1 system")
                .contains("Nothing else was read with it.")
                .containsPattern("Verdict then\">In doubt<")
                .contains("Above, if the correction holds")
                .contains("1.0228 to 1.0266 SG 20/20")
                .doesNotContain("1.023 to 1.027 SG 20/20");
        assertThat(page.split("65\u00a0L changed|65 L changed")).hasSize(2);
        // One target on one scale: both limits stand at one place in all three marks.
        String rows = page.substring(page.indexOf("Verdict then"));
        List<String> limits = Pattern.compile("class=\"mk-lim\" d=\"([^\"]+)\"")
                .matcher(rows)
                .results()
                .map(found -> found.group(1))
                .toList();
        assertThat(limits).hasSize(6);
        assertThat(Set.copyOf(limits)).hasSize(2);

        bench.check(suspect.instrument(), bench.salinityStandard("35"), bench.daysAgo(1), "1.0186", "1.0186");
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + suspect.instrument())))
                .contains("A second standard confirmed that it reads low by 0.0080 SG.")
                .contains("3 readings on 1 system");
    }

    /** Its rows give ±0.001 to ±0.006, so that no one figure may stand beside them. */
    @Test
    void givesNoOneFigureWhileItIsSuspectAndSaysWhyTheIntervalIsWhatItIs() {
        Suspect suspect = suspect();

        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + suspect.instrument())))
                .contains("no one figure holds")
                .doesNotContain("of the truth, 19 times out of 20")
                .doesNotContain("another check would not")
                .contains("so the interval was halved, from 60 to 30 days.")
                .contains("The check that it failed had been due on");

        InstrumentId inTime = bench.refractometer();
        StandardId sea = bench.salinityStandard("35");
        bench.check(inTime, sea, bench.daysAgo(40), "1.0266", "1.0266");
        bench.check(inTime, sea, bench.daysAgo(5), "1.0186", "1.0186");
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + inTime)))
                .contains("so the interval was halved, from 60 to 30 days.")
                .doesNotContain("had been due on");
    }

    @Test
    void saysWhatAnotherInstrumentShowedInTheBottleThatItFailedIn() {
        StandardId sea = bench.salinityStandard("35");
        InstrumentId failed = bench.refractometer();
        InstrumentId other = bench.refractometer();
        bench.check(failed, sea, bench.daysAgo(40), "1.0266", "1.0266");
        bench.check(failed, sea, bench.daysAgo(9), "1.0186", "1.0186");
        String code = instruments.require(other).code();
        String itself = instruments.require(failed).code();
        bench.check(other, sea, bench.daysAgo(30), "1.0266", "1.0266");
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + failed))).doesNotContain("in the same lot");

        bench.check(other, sea, bench.daysAgo(10), "1.0266", "1.0266");
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + failed)))
                .contains(code + " passed in the same lot, "
                        + standards.require(sea).code() + " (lot L-1), on ")
                .contains("that speaks for the standard")
                .contains(itself + " failed in " + standards.require(sea).code() + " (lot L-1), and " + code
                        + " was checked last in that one lot too: all of this hangs on it.")
                .containsPattern(code + " passed in the same lot on [^<]*, which speaks against " + itself
                        + " and for the standard\\. Still " + itself + " is suspect, not proven wrong");

        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + other)))
                .contains(itself + " failed in " + standards.require(sea).code() + " (lot L-1), in which " + code
                        + " was checked last too")
                .contains("Get a second lot beside " + standards.require(sea).code() + " (lot L-1) and check " + code
                        + " in it too: " + itself + " failed in ")
                .doesNotContain("Nothing until");

        bench.check(other, sea, bench.daysAgo(9), "1.0190", "1.0190");
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + failed)))
                .contains(code + " failed in the same lot, ")
                .contains("that speaks against the standard")
                .contains("which speaks against the standard. So " + itself + " is suspect, not proven wrong");

        bench.check(other, bench.salinityStandard("35"), bench.daysAgo(8), "1.0190", "1.0190");
        assertThat(standings.standing(other)).isEqualTo(Standing.CONDEMNED);
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + failed)))
                .contains(code + " passed in the same lot")
                .doesNotContain("failed in the same lot");
    }

    @Test
    void saysThatAStandardMustBeGotWhereNoneOnTheListWillDo() {
        InstrumentId oxygen = instruments.add(bench.instrument(
                InstrumentKind.OXYGEN_PROBE,
                Quantity.OXYGEN,
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                null,
                "0.1",
                "0.2"));
        StandardId air = standards.add(bench.standard(
                bench.code("AIR"),
                "Water shaken with air",
                StandardKind.AIR_SATURATED_WATER,
                Quantity.OXYGEN,
                "9.1",
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                "0.1"));
        bench.check(oxygen, air, bench.daysAgo(20), "9.1", "9.1");
        bench.check(oxygen, air, bench.daysAgo(5), "8.1", "8.1");

        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + oxygen)))
                .contains("Get a standard of about the same value (9.1 mg/L) from another lot than "
                        + standards.require(air).code())
                .contains("it should show about 9.10 mg/L")
                .contains("Of these kinds it may be: Air-saturated water.")
                .containsPattern("<h2 ?>Next check</h2> <p ?>Once a second lot is there</p>")
                .contains("no standard on the list can settle that")
                .contains("passes in a second lot, " + standards.require(air).code() + " was wrong and not ")
                .contains("If it fails there too, ")
                .doesNotContain("/instruments/" + oxygen + "/checks/new")
                .containsPattern("button-main\" href=\"/standards/new\"")
                .doesNotContainPattern("button-main\" href=\"/instruments/[^\"]*/checks/new")
                .doesNotContain(" again in ");
        assertThat(body(pages.get(Role.OFFICE, "/instruments")))
                .containsPattern(instruments.require(oxygen).code() + "(?s).{0,900}Once a second lot is there");
    }

    /** @param since what was read while it was suspect */
    private record Suspect(InstrumentId instrument, WaterSystemId system, ReadingId since) {}

    /** Read 1.025 twice, was 0.008 low at a check that was 35 days late, and read 1.025 once more. */
    private Suspect suspect() {
        InstrumentId refractometer = bench.refractometer();
        WaterSystemId system = bench.marineSystem();
        PersonId person = bench.person();
        StandardId sea = bench.salinityStandard("35");
        bench.salinityStandard("35");
        bench.check(refractometer, sea, bench.daysAgo(100), "1.0266", "1.0266");
        readings.record(bench.gravity(system, refractometer, person, "1.025", bench.daysAgo(50)));
        readings.record(bench.gravity(system, refractometer, person, "1.025", bench.daysAgo(6)));
        bench.check(refractometer, sea, bench.daysAgo(5), "1.0186", "1.0186");
        NewReading since = bench.gravity(system, refractometer, person, "1.025", bench.daysAgo(4));
        readings.record(since);
        return new Suspect(refractometer, system, since.id());
    }

    /** -4 mV at 7.00 and -144 at 10.01: 78.6 % of 59.16 mV (PhElectrodeTests), though its meter made up for it. */
    @Test
    void takesAWornOutElectrodeOutOfUseAndSaysWhatToDo() {
        StandardId seven = buffer("7.00");
        StandardId ten = buffer("10.01");
        check(20, point(seven, "7.00", "-4"), point(ten, "10.01", "-178"));
        assertThat(standings.standing(meter)).isEqualTo(Standing.IN_USE);

        check(5, point(seven, "7.00", "-4"), point(ten, "10.01", "-144"));

        assertThat(standings.standing(meter)).isEqualTo(Standing.SUSPECT);
        assertThat(calibrations.of(meter)).hasSize(4);
        assertThat(page())
                .contains("was not fit for use at the check on")
                .contains("78.6 %")
                .containsPattern("at 25.°C")
                .contains("Clean the electrode of")
                .contains(standards.require(seven).code())
                .doesNotContain("off by 0.0")
                .doesNotContain(">Trusted<");

        check(4, point(buffer("7.00"), "7.00", "-4"), point(buffer("10.01"), "10.01", "-144"));
        assertThat(standings.standing(meter)).isEqualTo(Standing.CONDEMNED);
        assertThat(page()).contains("a second check in fresh buffers confirmed it");

        check(3, point(seven, "7.00", "-4"), point(ten, "10.01", "-178"));
        standings.putBack(meter, Optional.empty(), "New electrode");
        assertThat(standings.standing(meter)).isEqualTo(Standing.IN_USE);
    }

    /** Condemned in two bottles of which one stood open: what was condemned may be sound. */
    @Test
    void marksACondemnationThatRestsOnAStandardBelievedNoMore() {
        InstrumentId refractometer = bench.refractometer();
        StandardId sea = bench.salinityStandard("35");
        StandardId open = bench.salinityStandard("35");
        bench.check(refractometer, sea, bench.daysAgo(20), "1.0266", "1.0266");
        bench.check(refractometer, sea, bench.daysAgo(5), "1.0186", "1.0186");
        bench.check(refractometer, open, bench.daysAgo(4), "1.0186", "1.0186");
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + refractometer)))
                .contains("a second standard confirmed it")
                .doesNotContain("not believed any more");

        bench.disbelieve(open, Optional.of(LocalDate.parse("2026-01-01")));

        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + refractometer)))
                .contains("a standard behind that is not believed any more")
                .contains("in another standard that can be believed")
                .contains("rests on " + standards.require(open).code())
                .contains("href=\"/standards/" + open + "\"");

        bench.check(refractometer, bench.salinityStandard("35"), bench.daysAgo(1), "1.0266", "1.0266");
        standings.putBack(refractometer, Optional.empty(), "Sound in a third bottle");
        assertThat(standings.standing(refractometer)).isEqualTo(Standing.IN_USE);
    }

    /** Brine from a balance that failed since: what was adjusted in it says so, with the way to the balance. */
    @Test
    void marksAnAdjustmentInAStandardThatWasWeighedOnABalanceThatWasOff() {
        InstrumentId balance = instruments.add(
                bench.instrument(InstrumentKind.BALANCE, Quantity.MASS, MeasurementUnit.GRAM, null, "0.1", "1"));
        StandardId mass = standards.add(bench.standard(
                bench.code("M"),
                "Test mass",
                StandardKind.TEST_MASS,
                Quantity.MASS,
                "1000",
                MeasurementUnit.GRAM,
                "0.05"));
        bench.check(balance, mass, bench.daysAgo(20), "1000", "1000");
        StandardId brine = madeUp.add(new NewMadeUpStandard(
                bench.code("MU"),
                "Brine",
                new StandardRecipe(
                        Solute.SODIUM_CHLORIDE,
                        new BigDecimal("36.5"),
                        new BigDecimal("100"),
                        BigDecimal.ZERO,
                        new BigDecimal("963.5"),
                        balance,
                        Optional.empty(),
                        LocalDate.ofInstant(bench.daysAgo(10), ZoneOffset.UTC)),
                Optional.empty()));
        InstrumentId refractometer = bench.refractometer();
        bench.check(refractometer, brine, bench.daysAgo(5), "1.026", "1.0265");
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + refractometer)))
                .doesNotContain("was weighed on");

        bench.check(balance, mass, bench.daysAgo(1), "1012", "1012");

        String code = instruments.require(balance).code();
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + refractometer)))
                .contains("was weighed on " + code)
                .contains("href=\"/instruments/" + balance + "\"");
        assertThat(body(pages.get(Role.OFFICE, "/standards/" + brine))).contains("It was weighed on " + code);
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + refractometer + "/checks/new")))
                .contains("weighed on a balance that was off");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "BALANCE     | MASS        | g    | Check it with a second mass too                | Hold the instrument",
                "PH_METER    | PH          | pH   | Check it in a second buffer too                | the zero",
                "THERMOMETER | TEMPERATURE | degC | Check it at a second temperature too           | Check the zero",
                "OXYGEN_PROBE| OXYGEN      | mg/L | Check it in a second standard too, well away   | pure water",
                "COLOUR_KIT  | NITRATE     | mg/L | Test the standard as you test water            | Hold the instrument",
                "HYDROMETER  | SALINITY    | S    | Check the zero too                             | Second mass"
            })
    void asksForACheckInWordsThatFitTheKind(
            InstrumentKind kind, Quantity quantity, String unit, String said, String not) {
        InstrumentId id = instruments.add(
                bench.instrument(kind, quantity, MeasurementUnit.ofCode(unit).orElseThrow(), null, "0.1", "0.1"));

        assertThat(body(pages.get(Role.TECHNICIAN, "/instruments/" + id + "/checks/new")))
                .contains(said)
                .doesNotContain(not);
    }

    private Optional<ChosenStandard.Shortage> chosen() {
        List<StandardView> own = standards.all().stream()
                .filter(standard -> calibrations.of(meter).stream()
                                .anyMatch(row -> row.standardId().equals(standard.id()))
                        || standard.code().equals(latest))
                .toList();
        return ChosenStandard.of(calibrations.history(meter), own, LocalDate.of(2026, 3, 10))
                .shortage();
    }

    private StandardId buffer(String value) {
        latest = bench.code("BU");
        return standards.add(new NewStandard(
                latest,
                "Buffer",
                StandardKind.PH_BUFFER,
                Quantity.PH,
                new BigDecimal(value),
                MeasurementUnit.PH_UNIT,
                new BigDecimal("0.02"),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty()));
    }

    private static NewCalibration.Point point(StandardId standard, String ph, @Nullable String millivolts) {
        return new NewCalibration.Point(
                standard,
                List.of(new BigDecimal(ph)),
                List.of(),
                Optional.of(new BigDecimal("25")),
                Optional.ofNullable(millivolts).map(BigDecimal::new));
    }

    private void check(int daysAgo, NewCalibration.Point... points) {
        calibrations.record(new NewCalibration(
                meter,
                bench.daysAgo(daysAgo),
                Optional.empty(),
                List.of(points),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                true));
    }

    private String page() {
        return body(pages.get(Role.OFFICE, "/instruments/" + meter));
    }
}
