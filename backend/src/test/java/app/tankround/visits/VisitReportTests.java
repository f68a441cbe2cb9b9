package app.tankround.visits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.CurrentPerson;
import app.tankround.chemistry.SalinityScale;
import app.tankround.documents.DocumentVersionView;
import app.tankround.documents.FileId;
import app.tankround.documents.FileStore;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.SalinityScales;
import app.tankround.instruments.StandardId;
import app.tankround.persistence.Uuids;
import app.tankround.plans.CorrectivePlanId;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.NewPlan;
import app.tankround.plans.PlanFollowing;
import app.tankround.plans.PlanMaking;
import app.tankround.plans.SafeRates;
import app.tankround.readings.Answer;
import app.tankround.readings.Bench;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.DecisionView;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.visits.VisitReport.Delivery;
import app.tankround.web.FieldRefusal;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** Reports as the client reads them: their text is taken from the PDF itself. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import({Bench.class, TestVisits.class})
class VisitReportTests {

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    VisitReport reports;

    @Autowired
    TestVisits visits;

    @Autowired
    Bench bench;

    @Autowired
    ReadingService readings;

    @Autowired
    Agreements agreements;

    @Autowired
    DecisionRegister decisions;

    @Autowired
    FileStore files;

    @Autowired
    CurrentPerson currentPerson;

    @Autowired
    ReadingAnswers answers;

    @Autowired
    SafeRates rates;

    @Autowired
    PlanMaking making;

    @Autowired
    PlanFollowing following;

    @Autowired
    CorrectivePlans plans;

    @Autowired
    MockMvcTester mvc;

    @Autowired
    TestClock clock;

    @Test
    void tellsWhatWasMeasuredDoneAndSeenAndWhatComesNext() throws IOException {
        FileId photo = files.store("tank.png", "image/png", picture());
        TestVisits.Case visit = visits.finished()
                .reading(Quantity.NITRATE, "80", Answer.VALUE)
                .reading(Quantity.AMMONIA, "0.05", Answer.BELOW_DETECTION)
                .entry("visit.water-change", "water-change/x", """
                        {"out": "65", "salinity": "1.026", "salinityUnit": "SG", "gravityReference": "20/20"}""")
                .entry("visit.socks", "socks/x", "{\"count\": 2, \"sizeMm\": 100}")
                .entry("visit.dose", "dose/x", "{\"product\": \"Trace mix\", \"amount\": \"12.5\", \"unit\": \"mL\"}")
                .entry(
                        "visit.livestock",
                        "livestock/1",
                        "{\"change\": \"SEEN\", \"name\": \"Yellow tang\", \"count\": 2}")
                .entry("visit.livestock", "livestock/2", """
                        {"change": "LOST", "name": "Yellow tang", "count": 1, "note": "behind the rock"}""")
                .entry("visit.departure", "departure/HEATER_ON", "{\"answer\": \"YES\"}")
                .entry(
                        "visit.departure",
                        "departure/FLOOR_DRY",
                        "{\"answer\": \"NO\", \"because\": \"drip at the pump\"}")
                .entry("visit.note", "note/1", "{\"text\": \"key is under the mat\"}")
                .entry("visit.photo", "photo/1", "{\"photo\": \"%s\", \"caption\": \"Whole tank\"}".formatted(photo))
                .entry("visit.signature", "signature", "{\"name\": \"R. Castellane\"}");
        agreements.add(agreement(visit));

        int version = reports.make(visit.id);

        assertThat(version).isEqualTo(1);
        assertThat(text(visit.id, 1))
                .contains("Client of Bellwether", "Dining room", "400 L", "R. Castellane")
                .contains("Not where it should be: Nitrate.")
                .contains("80 mg/L", "Above", "up to 40 mg/L")
                .contains("under 0.05 mg/L")
                .contains("Changed 65 L of water, the new water read 1.026 SG 20/20")
                .contains("Changed 2 filter socks (100 mm)")
                .contains("Dosed 12.5 mL of Trace mix")
                .contains("Yellow tang", "behind the rock")
                .contains("Heater on when we left", "Not confirmed: Floor dry when we left", "drip at the pump")
                .contains("Whole tank")
                .contains("Next visit", "Measure: Nitrate")
                .contains("unplug at the wall", "Ask a veterinarian")
                .doesNotContain("under the mat");
    }

    /** Nobody agreed a target for oxygen, copper or chlorine here. */
    @Test
    void neverSaysThatAllIsWellOfWhatKillsWithoutATarget() throws IOException {
        TestVisits.Case deadly = visits.finished()
                .reading(Quantity.OXYGEN, "0.5", Answer.VALUE)
                .reading(Quantity.COPPER, "2", Answer.VALUE);
        reports.make(deadly.id);
        assertThat(text(deadly.id, 1))
                .contains("Dangerous for the animals", "Oxygen", "Copper", "animals of any kind need at least 4")
                .doesNotContain("lies where it should");

        TestVisits.Case unknown = visits.finished().reading(Quantity.OXYGEN, "7.5", Answer.VALUE);
        reports.make(unknown.id);
        assertThat(text(unknown.id, 1)).contains("no target is agreed for:").doesNotContain("lies where it should");
    }

    /**
     * Total ammonia of 2 mg/L where none may be found: dangerous, with the first steps of the emergency plan that a client can
     * take (common practice, no source).
     */
    @Test
    void tellsCalmlyOfDangerWhatWasDoneWhatComesNextAndWhatTheClientCanDo() throws IOException {
        TestVisits.Case visit = visits.finished().reading(Quantity.AMMONIA, "2.0", Answer.VALUE);
        ReadingId deadly = readings.byVisit(visit.id.value()).getFirst().id();
        visit.entry(
                "visit.danger",
                "danger/" + deadly,
                "{\"reading\": \"%s\", \"done\": \"changed a quarter, air stone in\"}".formatted(deadly));

        reports.make(visit.id);
        agreements.add(agreement(visit));
        reports.make(visit.id);

        String tomorrow = DateTimeFormatter.ofLocalizedDate(FormatStyle.FULL)
                .withLocale(TestPeople.settings().locale())
                .format(visit.day.plusDays(1));
        assertThat(text(visit.id, 1).replaceAll("\\s+", " "))
                .contains("Dangerous for the animals; what was done and what comes next stands below: Ammonia, total.")
                .contains("2.0 mg/L. Above the target of up to 0 mg/L. This is dangerous for the animals.")
                .contains("what was done about it: changed a quarter, air stone in")
                .contains("Next visit By " + tomorrow, "Measure again, because the animals depend on it: Ammonia")
                .contains("feed very little or nothing", "no lime, no buffer", "ask a veterinarian at once")
                .doesNotContain("Not where it should be");
        assertThat(text(visit.id, 2).replaceAll("\\s+", " "))
                .contains("Before that, by " + tomorrow + ", measure again", "Measure: Nitrate");
    }

    @Test
    void tellsOfDangerThatWasOverBeforeAnybodyLeft() throws IOException {
        TestVisits.Case visit = visits.finished().reading(Quantity.AMMONIA, "2.0", Answer.VALUE);
        clock.advance(Duration.ofMinutes(20));
        visit.reading(Quantity.AMMONIA, "0.05", Answer.BELOW_DETECTION);

        reports.make(visit.id);

        assertThat(text(visit.id, 1).replaceAll("\\s+", " "))
                .contains("This was dangerous for the animals; measured again at this visit, it no longer was.")
                .doesNotContain("feed very little", "the animals depend on it");
    }

    @Test
    void neverShowsAReadingInDoubtAsPlainTruth() throws IOException {
        TestVisits.Case visit = visits.finished();
        InstrumentId instrument = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");
        NewReading salinity = bench.gravity(visit.system, instrument, visit.person, "1.025", clock.instant())
                .atVisit(visit.id.value());
        readings.record(salinity);
        agreements.add(agreement(visit));
        clock.advance(Duration.ofHours(1));
        bench.check(instrument, standard, clock.instant(), "1.0186", "1.0186");

        reports.make(visit.id);

        String text = text(visit.id, 1);
        assertThat(text)
                .contains("We do not trust what we read here, and say below what we know: Salinity.")
                .contains("Not trusted")
                .contains("What was read", "1.025 SG 20/20")
                .contains("What it really is", "±")
                .contains("What we did not do, and why", "We did not correct it in one visit")
                .contains("Back to the target, step by step")
                .contains("Measure again with a checked instrument: Salinity")
                .doesNotContain("Everything we measured lies where it should");
        // 1.025 read 0.008 too low is 1.033, S 43.4: nine steps of no more than 1.3 down to 32.5, some 0.0009 each.
        assertThat(text).containsSubsequence("1.0330 SG 20/20", "1.0321 SG 20/20", "1.0311 SG 20/20");
    }

    @Test
    void tellsOneWayBackAtTheVisitInTheReportAndInThePlan() throws IOException {
        TestVisits.Case visit = visits.finished();
        InstrumentId instrument = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");
        NewReading low = bench.gravity(visit.system, instrument, visit.person, "1.025", clock.instant())
                .atVisit(visit.id.value());
        readings.record(low);
        agreements.add(agreement(visit));
        clock.advance(Duration.ofHours(1));
        bench.check(instrument, standard, clock.instant(), "1.0186", "1.0186");
        bench.check(instrument, bench.salinityStandard("35"), clock.instant(), "1.0186", "1.0186");
        rates.set(Optional.of(visit.system), Quantity.SALINITY, Optional.of(1.0), Optional.of(0.65), "Old corals", 0);

        List<String> without = atTheVisit(low);
        reports.make(visit.id);

        // 0.65 a day are half a thousandth of gravity: the third place would move with every second step only.
        assertThat(without.get(1)).isEqualTo("1.0320 SG 20/20");
        assertThat(without).doesNotHaveDuplicates();
        assertThat(text(visit.id, 1)).containsSubsequence(steps("1.0330 SG 20/20", without));

        InstrumentId sound = bench.refractometer();
        bench.check(sound, bench.salinityStandard("0"), bench.daysAgo(3), "1.000", "1.000");
        bench.check(sound, standard, bench.daysAgo(3), "1.0266", "1.0266");
        clock.advance(Duration.ofHours(1));
        readings.record(bench.gravity(visit.system, sound, visit.person, "1.033", clock.instant()));
        CorrectivePlanId id = CorrectivePlanId.of(Uuids.next(clock.instant()));
        making.propose(new NewPlan(
                id, visit.system, Quantity.SALINITY, 35, Optional.empty(), 1, 0, 0, 0, 0, 64, 600, Optional.empty()));
        following.start(id, plans.require(id).version());

        SalinityScale gravity = SalinityScales.of(MeasurementUnit.SPECIFIC_GRAVITY, Optional.of("20/20"));
        List<String> planned = plans.require(id).steps().stream()
                .map(step -> "%.4f SG 20/20".formatted(gravity.readingIn(Salinity.ofPractical(step.after()))))
                .toList();
        reports.make(visit.id);

        assertThat(planned).isNotEqualTo(without);
        assertThat(atTheVisit(low)).isEqualTo(planned);
        assertThat(text(visit.id, 2)).containsSubsequence(steps("1.0330 SG 20/20", planned));
    }

    /** The way back as the visit page has it. */
    private List<String> atTheVisit(NewReading reading) {
        Object ramp = answers.of(readings.require(reading.id()), Optional.empty(), Locale.UK)
                .getOrDefault("ramp", List.of());
        return ((List<?>) ramp)
                .stream()
                        .map(step -> String.valueOf(((Map<?, ?>) step).get("value")))
                        .toList();
    }

    private static List<String> steps(String first, List<String> next) {
        return Stream.concat(Stream.of(first), next.stream()).toList();
    }

    @Test
    void tellsSamplePointsApart() throws IOException {
        Instant before = clock.instant().minus(Duration.ofDays(7));
        TestVisits.Case visit = visits.finished()
                .temperatureAt("Display", "24.1", before, false)
                .temperatureAt("Sump", "24.9", before, false)
                .temperatureAt("Display", "25.1", clock.instant(), true)
                .temperatureAt("Sump", "26.3", clock.instant(), true);

        reports.make(visit.id);

        assertThat(text(visit.id, 1).replaceAll("\\s+", " "))
                .containsPattern("Temperature, Display.{0,60}25\\.1 °C.{0,60}24\\.1 °C")
                .containsPattern("Temperature, Sump.{0,60}26\\.3 °C.{0,60}24\\.9 °C");
    }

    @Test
    void keepsEveryVersion() throws IOException {
        TestVisits.Case visit = visits.finished().reading(Quantity.NITRATE, "20", Answer.VALUE);
        reports.make(visit.id);
        byte[] first = reports.pdf(visit.id, Optional.of(1)).content();
        visit.reading(Quantity.AMMONIA, "0.5", Answer.VALUE);

        int second = reports.make(visit.id);

        assertThat(second).isEqualTo(2);
        assertThat(reports.versions(visit.id))
                .extracting(DocumentVersionView::number)
                .containsExactly(2, 1);
        assertThat(reports.pdf(visit.id, Optional.of(1)).content()).isEqualTo(first);
        assertThat(text(visit.id, 1)).doesNotContain("Ammonia");
        assertThat(text(visit.id, 2)).contains("Ammonia");
    }

    @Test
    void refusesToReportAVisitThatIsNotFinished() {
        TestVisits.Case visit = visits.open();

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> reports.make(visit.id))
                .returns("report.visit-open", FieldRefusal::code);
        assertThat(reports.versions(visit.id)).isEmpty();
    }

    @Test
    void refusesWhilePhotosAreStillOnTheTablet() {
        TestVisits.Case visit = visits.finished()
                .entry(
                        "visit.photo",
                        "photo/1",
                        "{\"photo\": \"01890000-0000-7000-8000-000000000001\", \"caption\": \"x\"}");

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> reports.make(visit.id))
                .returns("report.photos-missing", FieldRefusal::code);
    }

    @Test
    void refusesAPhotoThatIsNoPicture() {
        FileId broken = files.store("tank.png", "image/png", new byte[] {1, 2, 3});
        TestVisits.Case visit = visits.finished()
                .entry("visit.photo", "photo/1", "{\"photo\": \"%s\", \"caption\": \"x\"}".formatted(broken));

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> reports.make(visit.id))
                .returns("report.picture-unreadable", FieldRefusal::code);
        assertThat(reports.versions(visit.id)).isEmpty();
    }

    @Test
    void notesTheSameHandOverOnceAndLetsLaterDoubtFindIt() {
        TestVisits.Case visit = visits.finished().reading(Quantity.NITRATE, "20", Answer.VALUE);
        reports.make(visit.id);

        reports.handOver(visit.id, 1, "R. Castellane");
        reports.handOver(visit.id, 1, " R. Castellane ");

        assertThat(reports.deliveries(visit.id)).extracting(Delivery::recipient).containsExactly("R. Castellane");
        var reading = readings.byVisit(visit.id.value()).getFirst().id();
        assertThat(decisions.restingOn(List.of(reading)).get(reading))
                .extracting(DecisionView::kind)
                .containsExactly("report-sent");
    }

    @Test
    void marksAReportThatQuotedWhatCameIntoDoubtAndCorrectsItOnTheFirstPage() throws Exception {
        TestVisits.Case visit = visits.finished();
        InstrumentId instrument = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");
        readings.record(bench.gravity(visit.system, instrument, visit.person, "1.025", clock.instant())
                .atVisit(visit.id.value()));
        reports.make(visit.id);
        reports.handOver(visit.id, 1, "R. Castellane");
        byte[] sent = reports.pdf(visit.id, Optional.of(1)).content();
        assertThat(reports.doubted(visit.id)).isEmpty();
        assertThat(reports.isOvertaken(visit.id)).isFalse();
        clock.advance(Duration.ofHours(1));
        bench.check(instrument, standard, clock.instant(), "1.0186", "1.0186");
        clock.advance(Duration.ofHours(1));
        bench.check(instrument, bench.salinityStandard("35"), clock.instant(), "1.0186", "1.0186");

        assertThat(reports.doubted(visit.id)).singleElement().satisfies(doubted -> {
            assertThat(doubted.version()).isEqualTo(1);
            assertThat(doubted.recipients()).isEqualTo("R. Castellane");
            assertThat(doubted.ended()).isFalse();
        });
        assertThat(body(mvc.get()
                        .uri("/visits/" + visit.id + "/report")
                        .with(authentication(signedIn(visit)))
                        .exchange()))
                .contains(
                        "Sent, and in doubt since",
                        "Readings in doubt",
                        "Make a corrected version",
                        "nobody has told the client yet");

        reports.make(visit.id);
        reports.handOver(visit.id, 2, "R. Castellane");

        assertThat(reports.pdf(visit.id, Optional.of(1)).content()).isEqualTo(sent);
        assertThat(text(visit.id, 1)).doesNotContain("This version corrects");
        assertThat(text(visit.id, 2).replaceAll("\\s+", " "))
                .containsSubsequence(
                        "This version corrects version 1. What changed:",
                        "Salinity. We wrote: Inside. We no longer trust the 1.025 SG 20/20 that was read",
                        "1.033",
                        "What we measured");
        // The corrected version says itself what is in doubt, so that only the first misled somebody.
        assertThat(reports.doubted(visit.id))
                .extracting(VisitReport.Doubted::version)
                .containsExactly(1);
    }

    /** Read 0.008 low in the standard, so 1.025 is really near 1.033: inside a target this wide before and after. */
    @Test
    void callsAReadingThatStaysWhereItWasNoOtherVerdictAndSaysThatANewerVersionTookItsPlace() throws Exception {
        TestVisits.Case visit = visits.finished();
        jdbc.sql("delete from target where water_system = :system")
                .param("system", visit.system.value())
                .update();
        jdbc.sql("""
                        insert into target (water_system, quantity, low, high, unit, gravity_reference)
                        values (:system, 'SALINITY', 1.010, 1.050, 'SG', '20/20')
                        """).param("system", visit.system.value()).update();
        InstrumentId instrument = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");
        readings.record(bench.gravity(visit.system, instrument, visit.person, "1.025", clock.instant())
                .atVisit(visit.id.value()));
        reports.make(visit.id);
        reports.handOver(visit.id, 1, "R. Castellane");
        clock.advance(Duration.ofHours(1));
        bench.check(instrument, standard, clock.instant(), "1.0186", "1.0186");
        clock.advance(Duration.ofHours(1));
        bench.check(instrument, bench.salinityStandard("35"), clock.instant(), "1.0186", "1.0186");
        assertThat(reports.isOvertaken(visit.id)).isTrue();

        reports.make(visit.id);

        assertThat(text(visit.id, 2).replaceAll("\\s+", " "))
                .contains("turned out wrong", "That is what we wrote, as before: Inside")
                .doesNotContain("We no longer trust");
        assertThat(reports.isOvertaken(visit.id)).isFalse();
        assertThat(body(mvc.get()
                        .uri("/visits/" + visit.id + "/report")
                        .with(authentication(signedIn(visit)))
                        .exchange()))
                .contains("1, superseded by version 2");
    }

    @Test
    void givesTheStepsOfAWayBackADecimalMoreWhereTwoWouldLookAlike() {
        MeasurementUnit gravity = MeasurementUnit.SPECIFIC_GRAVITY;
        assertThat(ReadingAnswers.placesOfSteps(gravity, List.of(1.0264, 1.0258, 1.0252)))
                .isEqualTo(4);
        assertThat(ReadingAnswers.placesOfSteps(gravity, List.of(1.0284, 1.0271, 1.0258)))
                .isEqualTo(3);
        assertThat(ReadingAnswers.placesOfSteps(MeasurementUnit.PRACTICAL_SALINITY, List.of(35.04, 34.96)))
                .isEqualTo(2);
    }

    @Test
    void offersHandingOverWhereMailIsNotSetUp() throws Exception {
        TestVisits.Case visit = visits.finished()
                .contact("r.castellane@example.org", true)
                .reading(Quantity.NITRATE, "20", Answer.VALUE);
        Authentication technician = signedIn(visit);
        String address = "/visits/" + visit.id + "/report";
        assertThat(body(mvc.get().uri(address).with(authentication(technician)).exchange()))
                .contains("No report was made yet.");

        assertThat(mvc.post()
                        .uri(address)
                        .with(authentication(technician))
                        .with(csrf())
                        .exchange())
                .hasRedirectedUrl(address);

        assertThat(body(mvc.get().uri(address).with(authentication(technician)).exchange()))
                .contains("Mail is not set up here")
                .contains("Handed over by hand")
                .contains("report.pdf?version=1")
                .doesNotContain("Send it");
        assertThat(body(mvc.post()
                        .uri(address + "/by-hand")
                        .param("version", "1")
                        .param("recipient", "")
                        .with(authentication(technician))
                        .with(csrf())
                        .exchange()))
                .contains("field-error");
        assertThat(mvc.post()
                        .uri(address + "/by-hand")
                        .param("version", "1")
                        .param("recipient", "R. Castellane")
                        .with(authentication(technician))
                        .with(csrf())
                        .exchange())
                .hasRedirectedUrl(address);
        assertThat(body(mvc.get().uri(address).with(authentication(technician)).exchange()))
                .contains("R. Castellane, by hand");
        assertThat(mvc.get()
                        .uri("/visits/" + visit.id + "/report.pdf")
                        .with(authentication(technician))
                        .exchange())
                .hasStatusOk()
                .hasContentType("application/pdf");
    }

    private static NewAgreement agreement(TestVisits.Case visit) {
        return new NewAgreement(
                "A-" + visit.id,
                visit.system,
                1,
                Set.of(visit.day.getDayOfWeek()),
                visit.day,
                Optional.empty(),
                60,
                BigDecimal.TEN,
                List.of(TaskView.test(Quantity.NITRATE)),
                Optional.empty());
    }

    private String text(VisitId visit, int version) throws IOException {
        byte[] pdf = reports.pdf(visit, Optional.of(version)).content();
        try (var document = Loader.loadPDF(pdf)) {
            return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
        }
    }

    private static byte[] picture() throws IOException {
        var bytes = new ByteArrayOutputStream();
        ImageIO.write(new BufferedImage(80, 60, BufferedImage.TYPE_INT_RGB), "png", bytes);
        return bytes.toByteArray();
    }

    private static String body(MvcTestResult result) throws IOException {
        assertThat(result).hasStatusOk();
        return result.getResponse().getContentAsString();
    }

    private Authentication signedIn(TestVisits.Case visit) throws Exception {
        return currentPerson.actingAs(
                visit.person, () -> SecurityContextHolder.getContext().getAuthentication());
    }
}
