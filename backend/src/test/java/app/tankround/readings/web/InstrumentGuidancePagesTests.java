package app.tankround.readings.web;

import static app.tankround.tanks.web.PageTester.body;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
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
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
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
                                + " it should show 1.0000 SG 20/20.")
                .containsPattern("button-main\" href=\"/instruments/" + never + "/checks/new\\?standard=[0-9a-f-]+\"")
                .contains("Nothing it shows is trusted until it passes a check.")
                .contains("No check says. Until one does, its readings are shown with plus or minus")
                .doesNotContain("off by up to")
                .doesNotContain("19 times out of 20")
                .doesNotContain("rest on it");

        readings.record(bench.gravity(bench.marineSystem(), never, bench.person(), "1.025", bench.daysAgo(1)));

        assertThat(page(never))
                .containsPattern("#readings-in-doubt\" ?>See the reading on 1 system that rests on it")
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
                .doesNotContain("rests on it");

        readings.record(nitrate(system, kit, person, bench.daysAgo(1)));

        assertThat(body(pages.get(Role.TECHNICIAN, "/instruments/" + kit)))
                .contains("Ask the office for a new lot.")
                .doesNotContain("href=\"/instruments/new\"");
        String after = page(kit);
        assertThat(after)
                .containsPattern("#readings-in-doubt\" ?>See the reading on 1 system that rests on it")
                .contains("1 reading on 1 system")
                .contains("stands how far the corrected value may still be off, 19 times out of 20.")
                .doesNotContain("S is practical salinity")
                .doesNotContain("estimated from the checks before and after")
                .containsPattern("Verdict then\" ?>Not trusted<");
        assertThat(after.indexOf("Readings in doubt or not trusted"))
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

        assertThat(choices.insteadOf(instruments.require(suspect))).hasValueSatisfying(other -> {
            assertThat(other.kind()).isEqualTo(InstrumentKind.REFRACTOMETER);
            assertThat(other.unit()).isEqualTo(MeasurementUnit.SPECIFIC_GRAVITY);
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
