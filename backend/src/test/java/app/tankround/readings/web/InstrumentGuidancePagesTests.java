package app.tankround.readings.web;

import static app.tankround.tanks.web.PageTester.body;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.chemistry.PhBuffer;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentChoices;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.NewCalibration;
import app.tankround.instruments.NewInstrument;
import app.tankround.instruments.NewStandard;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRegister;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Whoever never read the code learns from an instrument's page alone why it is not trusted and what to do. In a database of its
 * own, since what to take is chosen among all standards.
 */
@SpringBootTest(properties = "spring.application.name=guidance")
@AutoConfigureMockMvc
@IntegrationTest
@Import({Bench.class, PageTester.class})
class InstrumentGuidancePagesTests {

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
    InstrumentChoices choices;

    @Autowired
    ReadingService readings;

    @Autowired
    TestPeople people;

    @Autowired
    JdbcClient jdbc;

    /** S 35 is 1.0266 on a scale of 20/20, as in {@code InstrumentPagesTests}. */
    @Test
    void namesForANeverCheckedOneWhatToTakeAndWhatThatShouldShow() {
        bench.salinityStandard("35");
        bench.salinityStandard("0");
        InstrumentId never = bench.refractometer();

        assertThat(page(never))
                .containsPattern(
                        "Check R-\\d+ in ST-\\d+ .lot L-1, practical salinity 35.: it should show 1.0266 SG 20/20, and"
                                + " passes if it is off by no more than 0.001 SG. Then in ST-\\d+ .lot L-1, practical salinity 0.:"
                                + " it should show 1.0000 SG 20/20, within the same limit.")
                .containsPattern("button-main\" href=\"/instruments/" + never + "/checks/new\\?standard=[0-9a-f-]+\"")
                .contains("Nothing it shows is trusted until it passes a check.")
                .contains("No check says. Until one does, its readings are shown with plus or minus")
                .doesNotContain("off by up to")
                .doesNotContain("19 times out of 20")
                .doesNotContain("rest on it");

        readings.record(bench.gravity(bench.marineSystem(), never, bench.person(), "1.025", bench.daysAgo(1)));

        assertThat(page(never))
                .containsPattern(
                        "#readings-in-doubt\" ?>1 reading on 1 system rests on R-\\d+. Do nothing because of what it showed, and at"
                                + " the next visit measure again, the nearest to danger first: \\w+, ")
                .contains("S is practical salinity, which has no unit.")
                .contains("Nothing else was read with it.");
    }

    /** 1.0266 and 1.0300 are three steps of the scale apart, and by one of them it passes. */
    @Test
    void saysThatNoCheckCountsWhereItWasCheckedInVain() {
        StandardId sea = bench.salinityStandard("35");
        InstrumentId contradicting = bench.refractometer();
        check(contradicting, sea, bench.daysAgo(2), "1.0266", "1.0300");
        String code = standards.require(sea).code();

        assertThat(page(contradicting))
                .contains("No check counts yet")
                .contains("its readings in " + code + " (lot L-1) did not agree with each other")
                .contains("Rinse, let it settle and read it at least three times")
                .contains("No check of it counts yet.")
                .doesNotContain("Never checked")
                .doesNotContain("never checked")
                .doesNotContain("never held")
                .doesNotContain("corrected by its checks");

        StandardId old = bench.salinityStandard("35");
        bench.disbelieve(old, Optional.of(LocalDate.ofInstant(bench.daysAgo(9), ZoneOffset.UTC)));
        InstrumentId inVain = bench.refractometer();
        check(inVain, old, bench.daysAgo(2), "1.0266");

        assertThat(page(inVain))
                .contains("No check counts yet")
                .contains(
                        "it was held in " + standards.require(old).code() + " (lot L-1), which could not be relied on")
                .doesNotContain("Rinse");
        assertThat(body(pages.get(Role.OFFICE, "/instruments"))).contains("No check counts yet");
    }

    @Test
    void saysOfAnExpiredLotSinceWhenAndWhichReadingsRestOnIt() {
        InstrumentId kit = expired(4);
        WaterSystemId system = bench.marineSystem();
        PersonId person = bench.person();
        readings.record(nitrate(system, kit, person, bench.daysAgo(9)));

        String before = page(kit);
        assertThat(before)
                .contains("Lot L-9 of " + instruments.require(kit).code() + " is past its use-by date: ")
                .contains("26 Feb 2026 was its last day")
                .containsPattern("<dt ?>Last day</dt> <dd class=\"nowrap\" ?>26 Feb 2026")
                .contains("Buy a new lot and add it under a code of its own")
                .contains("href=\"/instruments/new\"")
                .doesNotContain("Ask the office")
                .contains("No reading taken with it is in doubt.")
                .doesNotContain("Do nothing because of what it showed");

        readings.record(nitrate(system, kit, person, bench.daysAgo(1)));

        assertThat(body(pages.get(Role.TECHNICIAN, "/instruments/" + kit)))
                .contains("Ask the office for a new lot.")
                .doesNotContain("href=\"/instruments/new\"");
        String after = page(kit);
        assertThat(after)
                .containsPattern(
                        "#readings-in-doubt\" ?>1 reading on 1 system rests on R-\\d+. Do nothing because of what it showed, and at"
                                + " the next visit measure again, the nearest to danger first: \\w+, ")
                .contains("1 reading on 1 system")
                .contains("stands how far the corrected value may still be off, 19 times out of 20.")
                .doesNotContain("S is practical salinity")
                .doesNotContain("estimated from the checks before and after")
                .containsPattern("Verdict then\" ?>In doubt<");
        assertThat(after.indexOf("Readings in doubt, newest first"))
                .isLessThan(after.indexOf("Verdict then"))
                .isPositive();
    }

    @Test
    void offersFirstWhatReadsOnTheSameScaleAndIsOfTheSameKind() {
        InstrumentId suspect = bench.refractometer();
        StandardId sea = bench.salinityStandard("35");
        Stream.of(
                        bench.instrument(
                                InstrumentKind.CONDUCTIVITY_METER,
                                Quantity.SALINITY,
                                MeasurementUnit.PRACTICAL_SALINITY,
                                null,
                                "0.1",
                                "0.5"),
                        bench.instrument(
                                InstrumentKind.HYDROMETER,
                                Quantity.SALINITY,
                                MeasurementUnit.SPECIFIC_GRAVITY,
                                "20/20",
                                "0.001",
                                "0.001"))
                .map(instruments::add)
                .forEach(other -> check(
                        other,
                        sea,
                        bench.daysAgo(1),
                        instruments.require(other).kind() == InstrumentKind.HYDROMETER ? "1.0266" : "35.0"));
        InstrumentId same = bench.refractometer();
        check(same, sea, bench.daysAgo(1), "1.0266");

        assertThat(choices.insteadOf(instruments.require(suspect), List.of())).hasValueSatisfying(other -> {
            assertThat(other.instrument().kind()).isEqualTo(InstrumentKind.REFRACTOMETER);
            assertThat(other.instrument().unit()).isEqualTo(MeasurementUnit.SPECIFIC_GRAVITY);
        });
        assertThat(page(suspect)).containsPattern("Measure with R-\\d+ \\(scale: SG 20/20;");

        InstrumentId inHand = bench.refractometer();
        check(inHand, sea, bench.daysAgo(1), "1.0266");
        jdbc.sql("update instrument set holder_id = :person where id = :id")
                .param("person", people.person(Role.TECHNICIAN).value())
                .param("id", inHand.value())
                .update();
        String code = instruments.require(inHand).code();
        assertThat(body(pages.get(Role.TECHNICIAN, "/instruments/" + suspect))).contains("Measure with " + code + " (");
    }

    @Test
    void showsTheNewestReadingsAndWhereTheRestOfThemStands() {
        InstrumentId trusted = bench.refractometer();
        check(trusted, bench.salinityStandard("35"), bench.daysAgo(3), "1.0266");
        assertThat(page(trusted))
                .contains("Nothing was read with it at a tank.")
                .doesNotContain("These are the newest");
        var system = bench.marineSystem();
        for (int reading = 0; reading <= 20; reading++) {
            readings.record(bench.gravity(
                    system, trusted, bench.person(), "1.025", bench.daysAgo(1).plusSeconds(60L * reading)));
        }
        assertThat(page(trusted)).contains("These are the newest 20. All of them stand on the pages of their tanks.");
    }

    @Test
    void givesNoFigureForTheRangeOfUseWhereOnlyTheZeroWasChecked() {
        InstrumentId zeroOnly = bench.refractometer();
        check(zeroOnly, bench.salinityStandard("0"), bench.daysAgo(2), "1.000");

        assertThat(page(zeroOnly))
                .contains("Only its zero checked")
                .contains("Where it is used no figure holds until it is checked there.")
                .doesNotContain("corrected by its checks")
                .doesNotContain("another check would not");
    }

    @Test
    void takesAKitAtItsWordThroughoutItsPage() {
        assertThat(page(bench.kit(Quantity.NITRATE, "5", null)))
                .contains("plus or minus 5 mg/L")
                .contains("Within 5 mg/L: that is the error stated for the kit")
                .contains("A kit needs none")
                .doesNotContain("never checked")
                .doesNotContain("off by up to")
                .doesNotContain("19 times out of 20");
    }

    /** Floors and ceilings of each kind stand in {@code UncertaintyDefaults}: common practice, no source. */
    @ParameterizedTest
    @EnumSource(
            value = InstrumentKind.class,
            names = {"REFRACTOMETER", "HYDROMETER", "BALANCE", "PH_METER"})
    void namesWhatToGetAndTheLimitsOfTheInterval(InstrumentKind kind) {
        Quantity quantity =
                Stream.of(Quantity.values()).filter(kind::measures).findFirst().orElseThrow();
        MeasurementUnit unit = quantity == Quantity.SALINITY
                ? MeasurementUnit.MILLISIEMENS_PER_CENTIMETRE
                : quantity.units().getFirst();
        InstrumentId id = instruments.add(bench.instrument(kind, quantity, unit, null, "0.1", "0.5"));
        String limits = switch (kind) {
            case REFRACTOMETER -> "from 7 days (after checks that failed) to 90 days";
            case PH_METER -> "from 3 days (after checks that failed) to 60 days";
            default -> "from 30 days (after checks that failed) to 365 days";
        };

        assertThat(page(id))
                .contains("For its kind the interval lies " + limits)
                .containsPattern("(Get|Check) ");
    }

    @Test
    void putsGettingAStandardInPlaceOfACheckThatNoBottleAtHandAllows() {
        InstrumentId balance = instruments.add(
                bench.instrument(InstrumentKind.BALANCE, Quantity.MASS, MeasurementUnit.GRAM, null, "0.1", "1"));

        assertThat(page(balance))
                .contains("Get a test mass near what you weigh, since none that fits")
                .contains("button-main\" href=\"/standards/new\"")
                .doesNotContain("button-main\" href=\"/instruments/");

        standards.add(new NewStandard(
                bench.code("M"),
                "Test mass",
                StandardKind.TEST_MASS,
                Quantity.MASS,
                new BigDecimal("200"),
                MeasurementUnit.GRAM,
                new BigDecimal("0.1"),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty()));
        assertThat(page(balance))
                .containsPattern("Check R-\\d+ in M-\\d+: it should show 200.00 g")
                .doesNotContain("button-main\" href=\"/standards/new\"");
    }

    /** The screw was turned in the first of two standards; the zero was only read. */
    @Test
    void saysWhatWasAdjustedOnlyWhereSomethingWas() {
        InstrumentId refractometer = bench.refractometer();
        calibrations.record(new NewCalibration(
                refractometer,
                bench.daysAgo(2),
                Optional.empty(),
                List.of(
                        NewCalibration.Point.single(
                                bench.salinityStandard("35"),
                                new BigDecimal("1.0262"),
                                new BigDecimal("1.0266"),
                                Optional.empty()),
                        new NewCalibration.Point(
                                bench.salinityStandard("0"),
                                List.of(new BigDecimal("1.000")),
                                List.of(),
                                Optional.empty(),
                                Optional.empty())),
                Optional.empty(),
                Optional.of("Screw turned"),
                Optional.empty(),
                false));

        String page = page(refractometer);
        assertThat(page.split("Screw turned", -1)).hasSize(2);
        assertThat(page).contains("low by 0.0004 SG", "0.001 SG either way");
    }

    /** A single standard leaves the slope open, so far from it more is unknown; brackish water is 1.0077 at S 10 (EOS-80). */
    @Test
    void saysHowFarOffItIsWhereItIsUsedAndNotOnlyWhereItWasChecked() {
        StandardId sea = bench.salinityStandard("35");
        InstrumentId hydrometer = instruments.add(bench.instrument(
                InstrumentKind.HYDROMETER,
                Quantity.SALINITY,
                MeasurementUnit.SPECIFIC_GRAVITY,
                "20/20",
                "0.001",
                "0.001"));
        check(hydrometer, sea, bench.daysAgo(3), "1.0266");
        WaterSystemId system = bench.marineSystem();
        readings.record(bench.gravity(system, hydrometer, bench.person(), "1.008", bench.daysAgo(2)));
        readings.record(bench.gravity(system, hydrometer, bench.person(), "1.007", bench.daysAgo(1)));

        assertThat(page(hydrometer))
                .contains("Where it was checked, at 1.0266 SG, a reading corrected by its checks lies within")
                .containsPattern(
                        "Lately it was read from 1.007 to 1.008 SG, away from there: there a reading lies within"
                                + " 0.00(2|3)\\d* SG")
                .contains("of it (")
                .doesNotContain("As left")
                .doesNotContain("Not adjusted");
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + hydrometer + "/checks/new")))
                .contains("It cannot be adjusted", "asFound")
                .doesNotContain("asLeft")
                .doesNotContain("What was adjusted");
    }

    @Test
    void saysWhereItIsUsedBeyondItsStandards() {
        InstrumentId meter = instruments.add(bench.instrument(
                InstrumentKind.CONDUCTIVITY_METER,
                Quantity.SALINITY,
                MeasurementUnit.PRACTICAL_SALINITY,
                null,
                "0.1",
                "0.5"));
        calibrations.record(new NewCalibration(
                meter,
                bench.daysAgo(3),
                Optional.empty(),
                List.of(
                        NewCalibration.Point.single(
                                bench.salinityStandard("0"), BigDecimal.ZERO, BigDecimal.ZERO, Optional.empty()),
                        NewCalibration.Point.single(
                                bench.salinityStandard("35"),
                                new BigDecimal("35.0"),
                                new BigDecimal("35.0"),
                                Optional.empty())),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                false));
        String inside = page(meter);
        readings.record(NewReading.of(
                        ReadingId.of(Uuids.next(bench.daysAgo(1))),
                        bench.marineSystem(),
                        Quantity.SALINITY,
                        new BigDecimal("43.3"),
                        MeasurementUnit.PRACTICAL_SALINITY,
                        bench.daysAgo(1),
                        bench.person())
                .withInstrument(meter));

        assertThat(inside).contains("Nothing that speaks against it.").doesNotContain("Lately");
        assertThat(page(meter))
                .contains("at S 0.00 and S 35.00")
                .contains("Lately it was read up to S 43.3, but the highest standard of its last check was S 35.00.")
                .contains("Lately it was read at S 43.3, beyond the standards that it was checked in")
                .contains("what it reads beyond them is known less well.");
    }

    @Test
    void saysOfATrustedOneWhatItsNextCheckTakesAndKeepsTheButtonForWhatIsDue() {
        InstrumentId sound = bench.refractometer();
        StandardId sea = bench.salinityStandard("35");
        bench.salinityStandard("0");
        check(sound, sea, bench.daysAgo(1), "1.0266");

        assertThat(page(sound))
                .containsPattern("By \\d+ \\w+ 2026 check R-\\d+ in ST-\\d+ .lot L-1, practical salinity"
                        + " 35.: it should show 1.0266 SG 20/20, and passes if it is off by no more than 0.001 SG")
                .containsPattern("class=\"button\" href=\"/instruments/" + sound + "/checks/new")
                .doesNotContainPattern("button-main\" href=\"/instruments/" + sound + "/checks/new");
        assertThat(page(bench.refractometer())).containsPattern("button-main\" href=\"/instruments/[^\"]*/checks/new");
    }

    /** 500 mg/L of calcium lies beyond solutions of 100 and 400 and between those of 400 and 600. */
    @Test
    void offersWhatWasCheckedWhereTheWaterLiesElseWarns() {
        InstrumentId suspect = photometer();
        InstrumentId below = photometer();
        StandardId low = calcium("100");
        StandardId middle = calcium("400");
        StandardId high = calcium("600");
        checked(below, low, "100", middle, "400");
        readings.record(NewReading.of(
                        ReadingId.of(Uuids.next(bench.daysAgo(1))),
                        bench.marineSystem(),
                        Quantity.CALCIUM,
                        new BigDecimal("500"),
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        bench.daysAgo(1),
                        bench.person())
                .withInstrument(suspect));
        String belowCode = instruments.require(below).code();

        assertThat(page(suspect))
                .contains("Measure with " + belowCode + " (")
                .containsPattern(belowCode
                        + " was checked from 100 to 400 mg/L, and the water that R-\\d+ was read on lies at"
                        + " 500 mg/L: what " + belowCode + " shows beyond its standards is known less well");

        InstrumentId there = photometer();
        checked(there, middle, "400", high, "600");
        assertThat(page(suspect))
                .contains("Measure with " + instruments.require(there).code() + " (")
                .doesNotContain("beyond its standards");
    }

    /** S 34.5 is 1.0262 and S 33 is 1.0250 on a scale of 20/20 (EOS-80); the target ends at 35. */
    @Test
    void namesFirstWhatLiesNearestToItsLimit() {
        InstrumentId never = bench.refractometer();
        WaterSystemId well = bench.marineSystem();
        WaterSystemId near = bench.marineSystem();
        readings.record(bench.gravity(near, never, bench.person(), "1.0262", bench.daysAgo(2)));
        readings.record(bench.gravity(well, never, bench.person(), "1.0250", bench.daysAgo(1)));

        assertThat(page(never))
                .containsPattern(
                        "2 readings on 2 systems rest on R-\\d+\\. Do nothing because of what it showed, and at the next"
                                + " visit measure again, the nearest to danger first: Salinity, " + code(near)
                                + "[^;<]*; Salinity, "
                                + code(well));
    }

    @Test
    void saysAtTheCheckWhenItPassesAndWhatTheStandardsAre() {
        StandardId sea = bench.salinityStandard("35");
        String code = standards.require(sea).code();
        String form = body(pages.get(Role.TECHNICIAN, "/instruments/" + bench.refractometer() + "/checks/new"));

        assertThat(form.split("In each standard it passes if it is off by no more than 0.001 SG.", -1))
                .as("at both standards")
                .hasSize(3);
        assertThat(form)
                .contains("The standards: what they are, and how they keep")
                .contains("A seawater standard is a bottled solution of known salinity.")
                .contains(code + ", Standard, lot L-1, until 1 Jan 2027")
                .doesNotContain("A buffer holds its pH");
    }

    private InstrumentId photometer() {
        return instruments.add(bench.instrument(
                InstrumentKind.PHOTOMETER, Quantity.CALCIUM, MeasurementUnit.MILLIGRAMS_PER_LITRE, null, "5", "20"));
    }

    private StandardId calcium(String value) {
        return standards.add(bench.standard(
                bench.code("CA"),
                "Calcium",
                StandardKind.KNOWN_CONCENTRATION,
                Quantity.CALCIUM,
                value,
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                "1"));
    }

    private void checked(InstrumentId instrument, StandardId low, String atLow, StandardId high, String atHigh) {
        calibrations.record(new NewCalibration(
                instrument,
                bench.daysAgo(2),
                Optional.empty(),
                Stream.of(Map.entry(low, atLow), Map.entry(high, atHigh))
                        .map(held -> new NewCalibration.Point(
                                held.getKey(),
                                List.of(new BigDecimal(held.getValue())),
                                List.of(),
                                Optional.empty(),
                                Optional.empty()))
                        .toList(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                false));
    }

    private String code(WaterSystemId system) {
        return jdbc.sql("select code from water_system where id = :id")
                .param("id", system.value())
                .query(String.class)
                .single();
    }

    /** What is missing is itself the first step, and the list is asked for it: first nothing lies there, then something. */
    @Test
    void asksNowForTheStandardThatItsLastCheckLacked() {
        InstrumentId pen = bench.pen();
        StandardId zero = bench.solids("0");
        StandardId ten = bench.solids("10");
        check(pen, ten, bench.daysAgo(3), "10");
        String penCode = instruments.require(pen).code();
        String zeroCode = standards.require(zero).code();
        assertThat(page(pen))
                .contains("Now, in addition, check " + penCode + " in " + zeroCode
                        + ": it should show 0.0 mg/L, and passes")
                .contains("Its last check was at 10.0 mg/L only")
                .containsPattern("href=\"/instruments/" + pen + "/checks/new\\?standard=" + zero + "\"")
                .containsPattern("By \\d+ \\w+ 2026 check " + penCode + " in ")
                .contains("Then in " + zeroCode + ": it should show 0.0 mg/L, within the same limit.")
                .doesNotContain("Nothing until");

        checked(pen, zero, "0", ten, "10");
        assertThat(page(pen)).contains("Nothing until").doesNotContain("in addition");

        readings.record(NewReading.of(
                        ReadingId.of(Uuids.next(bench.daysAgo(1))),
                        bench.vat(),
                        Quantity.DISSOLVED_SOLIDS,
                        new BigDecimal("80"),
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        bench.daysAgo(1),
                        bench.person())
                .withInstrument(pen));
        assertThat(page(pen))
                .contains("Get a conductivity standard in which " + penCode
                        + " shows 80 mg/L or a little more: none on the" + " list does.")
                .contains("Lately it was read up to 80 mg/L, but the highest standard of its last check was 10.0 mg/L")
                .doesNotContain("Nothing until")
                .doesNotContain("in a higher one too");

        String above = standards.require(bench.solids("500")).code();
        String nearest = standards.require(bench.solids("84")).code();
        assertThat(page(pen))
                .contains("Now, in addition, check " + penCode + " in " + nearest + ": it should show 84.0 mg/L")
                .doesNotContain("in " + above)
                .doesNotContain("none on the list does");
    }

    /** The buffer of pH 7.00 is 7.016 at 20 °C by the table of phosphate buffers in PhBufferTests. */
    @Test
    void saysHowWarmABufferWasOrMustBeWhereverItsValueStands() {
        InstrumentId meter = instruments.add(
                bench.instrument(InstrumentKind.PH_METER, Quantity.PH, MeasurementUnit.PH_UNIT, null, "0.01", "0.1"));
        StandardId seven = standards.add(new NewStandard(
                bench.code("PH"),
                "Buffer pH 7",
                StandardKind.PH_BUFFER,
                Quantity.PH,
                new BigDecimal("7.00"),
                MeasurementUnit.PH_UNIT,
                new BigDecimal("0.02"),
                Optional.of(new BigDecimal("25.0")),
                Optional.of(PhBuffer.PHOSPHATE_SEVEN),
                Optional.of("L-7"),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty()));
        calibrations.record(new NewCalibration(
                meter,
                bench.daysAgo(3),
                Optional.empty(),
                List.of(new NewCalibration.Point(
                        seven,
                        List.of(new BigDecimal("7.02")),
                        List.of(),
                        Optional.of(new BigDecimal("20.0")),
                        Optional.empty())),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                false));

        assertThat(page(meter))
                .contains("it should show 7.000 pH at 25 \u00b0C, and passes")
                .contains("the correction is exact only near 7.016 pH at 20 \u00b0C.")
                .contains("Where it was checked, at 7.016 pH at 20 \u00b0C,")
                .containsPattern("7\\.016 <span class=\"facts\" ?>at 20 \u00b0C</span>")
                .contains("Get a second buffer, such as pH 4 or pH 10: none is on the list.");
    }

    @Test
    void offersNoFormWhereNothingOnTheListFits() {
        InstrumentId kit = bench.kit(Quantity.PHOSPHATE, "0.05", LocalDate.parse("2027-05-22"));
        String code = instruments.require(kit).code();

        assertThat(page(kit))
                .contains("Go on using it until its last day, 22 May 2027.")
                .contains("to learn it, get a solution whose phosphate stands on its label, near what you measure")
                .contains("A dealer in laboratory or aquarium supplies has them.")
                .contains("href=\"/standards/new\"")
                .doesNotContain("/checks/new");
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + kit + "/checks/new")))
                .contains("Nothing on the list of standards fits " + code)
                .contains("href=\"/standards/new\"")
                .doesNotContain("points[0]");
        assertThat(body(pages.get(Role.OFFICE, "/instruments")))
                .containsPattern(code + "(?s).{0,900}Trusted as stated.{0,900}Needs none.{0,300}Last day 22 May 2027");
    }

    @Test
    void putsTheBottleThatItFailedInLastAndSaysThatItSettlesNothing() {
        StandardId failedIn = bench.salinityStandard("35");
        String other = standards.require(bench.salinityStandard("35")).code();
        InstrumentId suspect = bench.refractometer();
        check(suspect, failedIn, bench.daysAgo(1), "1.0186");

        String form = body(pages.get(Role.OFFICE, "/instruments/" + suspect + "/checks/new"));
        assertThat(form).contains("failed in it: the same again settles nothing");
        assertThat(form.indexOf("failed in it:")).isGreaterThan(form.indexOf(other + ", "));
        assertThat(body(pages.get(Role.OFFICE, "/instruments")))
                .containsPattern(instruments.require(suspect).code() + "(?s).{0,900}1 Mar 2026, failed");
    }

    @Test
    void asksForOneStandardWhereThereIsOneOnly() {
        InstrumentId probe = instruments.add(bench.instrument(
                InstrumentKind.OXYGEN_PROBE,
                Quantity.OXYGEN,
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                null,
                "0.1",
                "0.4"));
        standards.add(bench.standard(
                bench.code("STD-O2"),
                "Air-saturated water",
                StandardKind.AIR_SATURATED_WATER,
                Quantity.OXYGEN,
                "9.09",
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                "0.1"));

        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + probe + "/checks/new")))
                .contains("points[0].standardId", "Only one standard on the list fits")
                .doesNotContain("points[1].standardId");
    }

    @Test
    void takesTemperaturesAsTheBusinessReadsThem() {
        new TestBusiness(jdbc);
        InstrumentId instrument = bench.refractometer();
        StandardId sea = bench.salinityStandard("35");
        String path = "/instruments/" + instrument + "/checks/new";
        jdbc.sql("update business set unit_system = 'US_CUSTOMARY'").update();
        try {
            assertThat(body(pages.get(Role.OFFICE, path))).contains("\u00b0F").doesNotContain("\u00b0C<");
            Map<String, String> form = new HashMap<>(Map.of(
                    "points[0].standardId", sea.toString(),
                    "points[0].temperature", "300",
                    "points[0].asFound[0].value", "1.0266",
                    "on", "2026-03-01",
                    "at", "09:00"));
            assertThat(PageTester.refusal(body(pages.post(Role.OFFICE, path, form)), "points[0].temperature"))
                    .contains("300", "28.4", "140");
            form.put("points[0].temperature", "77");
            assertThat(pages.post(Role.OFFICE, path, form)).hasStatus3xxRedirection();
        } finally {
            jdbc.sql("update business set unit_system = 'METRIC'").update();
        }
        assertThat(calibrations.of(instrument).getFirst().temperature().orElseThrow())
                .isEqualByComparingTo("25");
    }

    @Test
    void restsNothingOnAKitPastItsLastDay() {
        InstrumentId kit = expired(4);

        assertThat(calibrations.history(kit).decidesAt(bench.daysAgo(4), ZoneOffset.UTC))
                .isTrue();
        assertThat(calibrations.history(kit).decidesAt(bench.daysAgo(3), ZoneOffset.UTC))
                .isFalse();
        assertThat(calibrations.deciding(Quantity.NITRATE, bench.daysAgo(3)))
                .noneMatch(other -> other.id().equals(kit));
        NewReading late = nitrate(bench.marineSystem(), kit, bench.person(), bench.daysAgo(1));
        assertThat(readings.record(late).assessment().decides()).isFalse();
    }

    private InstrumentId expired(int daysAgo) {
        NewInstrument kit = bench.instrument(
                InstrumentKind.COLOUR_KIT, Quantity.NITRATE, MeasurementUnit.MILLIGRAMS_PER_LITRE, null, "1", "5");
        return instruments.add(new NewInstrument(
                kit.code(),
                kit.name(),
                kit.kind(),
                kit.quantity(),
                kit.unit(),
                kit.gravityReference(),
                kit.graduation(),
                kit.resolution(),
                kit.permittedError(),
                kit.checkIntervalDays(),
                Optional.of("L-9"),
                Optional.of(LocalDate.ofInstant(bench.daysAgo(daysAgo), ZoneOffset.UTC)),
                kit.purchasedOn(),
                kit.retiredOn(),
                kit.holder()));
    }

    private static NewReading nitrate(WaterSystemId system, InstrumentId kit, PersonId person, Instant at) {
        return NewReading.of(
                        ReadingId.of(Uuids.next(at)),
                        system,
                        Quantity.NITRATE,
                        new BigDecimal("10"),
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        at,
                        person)
                .withInstrument(kit);
    }

    private void check(InstrumentId instrument, StandardId standard, Instant at, String... found) {
        calibrations.record(new NewCalibration(
                instrument,
                at,
                Optional.empty(),
                List.of(new NewCalibration.Point(
                        standard,
                        Stream.of(found).map(BigDecimal::new).toList(),
                        List.of(),
                        Optional.empty(),
                        Optional.empty())),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                true));
    }

    private String page(InstrumentId instrument) {
        return body(pages.get(Role.OFFICE, "/instruments/" + instrument));
    }
}
