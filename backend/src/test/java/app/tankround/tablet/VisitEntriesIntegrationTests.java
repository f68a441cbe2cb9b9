package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.tuple;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.chemistry.Salt;
import app.tankround.documents.FileId;
import app.tankround.documents.FileStore;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.followups.Urgency;
import app.tankround.instruments.InstrumentId;
import app.tankround.persistence.Uuids;
import app.tankround.plans.CorrectivePlanId;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.NewPlan;
import app.tankround.plans.PlanFollowing;
import app.tankround.plans.PlanMaking;
import app.tankround.readings.Bench;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitState;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import app.tankround.visits.ReadingEntries;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import app.tankround.visits.VisitView.DepartureLine;
import app.tankround.visits.VisitView.TaskState;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryAnswer.Status;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Every kind of entry, from the inbox to what the visit amounts to. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
@Import(Bench.class)
class VisitEntriesIntegrationTests {

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private Bench bench;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private TestPeople people;

    @Autowired
    private VisitService visits;

    @Autowired
    private Followups followups;

    @Autowired
    private PageWords words;

    @Autowired
    private ReadingService readings;

    @Autowired
    private DecisionRegister decisions;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private RoundService rounds;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private CorrectivePlans plans;

    @Autowired
    private PlanMaking making;

    @Autowired
    private PlanFollowing following;

    @Autowired
    private FileStore files;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @Autowired
    private ReadingEntries entries;

    private VisitFixture.Stop stop;

    @BeforeEach
    void startVisit() {
        stop = fixture.stop();
        assertThat(take("visit.start", "{'stop':'%s'}".formatted(stop.stop())).status())
                .isEqualTo(Status.APPLIED);
    }

    @Test
    void makesOneVisitOfAStopThatTwoStartAtOnce() throws Exception {
        VisitFixture.Stop other = fixture.stop();
        List<EntryAnswer> answers = atOnce(
                2, number -> inbox.take(fixture.entry(other, "visit.start", "{'stop':'%s'}".formatted(other.stop()))));
        assertThat(answers).extracting(EntryAnswer::status).containsOnly(Status.APPLIED);
        assertThat(answers.stream().map(answer -> answer.args().get("code")).distinct())
                .hasSize(1);
        assertThat(visits.byRound(other.round())).hasSize(1);
        assertThat(rounds.require(other.round()).started()).isTrue();
    }

    @Test
    void gives40CopiesOfOneEntryOneEffectAndOneAnswer() throws Exception {
        InstrumentId instrument = fixture.refractometer("1.0266");
        Entry sent = fixture.entry(stop, "visit.reading", VisitFixture.salinity(stop, instrument, "1.025"));
        List<EntryAnswer> answers = atOnce(40, number -> inbox.take(sent));
        assertThat(answers).extracting(EntryAnswer::status).containsOnly(Status.APPLIED);
        assertThat(answers.stream().map(answer -> answer.args().get("verdict")).distinct())
                .hasSize(1);
        assertThat(readings.byVisit(stop.visit())).hasSize(1);
        assertThat(count("inbox_entry", sent.id())).isOne();
        assertThat(count("visit_entry", sent.id())).isOne();
    }

    /** The end is at TestClock.START; what has no reason is refused at its field and changes nothing. */
    @Test
    void changesWhatStoodWhenTheVisitWasFinishedOnlyWithAReason() {
        String feeding = "{'system':'%s','appetite':'%s'%s}";
        String usual = feeding.formatted(stop.system(), "AS_USUAL", "");
        String less = feeding.formatted(stop.system(), "LESS", "");
        assertThat(take("visit.feeding", usual).status()).isEqualTo(Status.APPLIED);
        for (DepartureLine line : DepartureLine.values()) {
            take("visit.departure", "{'line':'%s','answer':'YES'}".formatted(line));
        }
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
        clock.advance(Duration.ofHours(2));

        EntryAnswer bare = inbox.take(at(Duration.ofHours(1), "visit.feeding", less, usual, stop.technician()));
        assertThat(bare.status()).isEqualTo(Status.REFUSED);
        assertThat(bare.code()).isEqualTo("visits.corrected-because");
        assertThat(bare.args().get("field")).isEqualTo("corrected");
        assertThat(appetite()).isEqualTo(VisitView.Appetite.AS_USUAL);
        // Made before the end on a tablet that had no signal.
        assertThat(inbox.take(at(Duration.ofMinutes(-1), "visit.feeding", less, usual, stop.technician()))
                        .status())
                .isEqualTo(Status.APPLIED);
        assertThat(appetite()).isEqualTo(VisitView.Appetite.LESS);

        PersonId another = people.person(Role.OFFICE);
        String nothing = feeding.formatted(stop.system(), "NOTHING", "");
        assertThat(inbox.take(at(Duration.ofHours(1), "visit.feeding", nothing, less, another))
                        .code())
                .isEqualTo("visits.corrected-because");
        String told = feeding.formatted(stop.system(), "NOTHING", ",'corrected':'The client rang'");
        assertThat(inbox.take(at(Duration.ofHours(1), "visit.feeding", told, less, another))
                        .status())
                .isEqualTo(Status.APPLIED);
        VisitView visit = visits.require(VisitId.of(stop.visit()));
        assertThat(appetite()).isEqualTo(VisitView.Appetite.NOTHING);
        assertThat(Objects.requireNonNull(visit.fields().get("feeding/" + stop.system()))
                        .body()
                        .path("corrected")
                        .asString())
                .isEqualTo("The client rang");
        // What nothing was said of at the visit changes what the client was told too.
        String note = "{'line':'later','text':'Gate code changed'%s}";
        assertThat(later("visit.note", note.formatted("")).code()).isEqualTo("visits.corrected-because");
        assertThat(later("visit.note", note.formatted(",'corrected':'It was forgotten'"))
                        .status())
                .isEqualTo(Status.APPLIED);
        String reading = "{'system':'%s','quantity':'TEMPERATURE','answer':'VALUE','value':'25.1','unit':'degC'%s}";
        assertThat(later("visit.reading", reading.formatted(stop.system(), "")).code())
                .isEqualTo("visits.corrected-because");
        assertThat(readings.byVisit(stop.visit())).isEmpty();
        assertThat(later("visit.reading", reading.formatted(stop.system(), ",'corrected':'It was forgotten'"))
                        .status())
                .isEqualTo(Status.APPLIED);
        assertThat(readings.byVisit(stop.visit())).hasSize(1);
    }

    /** An hour after the visit was finished. */
    private EntryAnswer later(String kind, String body) {
        return inbox.take(at(Duration.ofHours(1), kind, body, null, stop.technician()));
    }

    private VisitView.Appetite appetite() {
        return visits.require(VisitId.of(stop.visit()))
                .systems()
                .getFirst()
                .feeding()
                .orElseThrow()
                .appetite();
    }

    private Entry at(Duration later, String kind, String body, @Nullable String base, PersonId author) {
        Entry entry = fixture.entry(stop, kind, body, base);
        return new Entry(
                entry.id(),
                kind,
                entry.subject(),
                entry.device(),
                entry.sequence(),
                entry.deviceTime().plus(later),
                Duration.ZERO,
                entry.base(),
                entry.body(),
                author.value());
    }

    @Test
    void refusesAnIdThatStandsForAnotherEntry() {
        Entry first = fixture.entry(stop, "visit.note", "{'line':'a','text':'Door code changed'}");
        inbox.take(first);
        Entry other = new Entry(
                first.id(),
                first.kind(),
                first.subject(),
                first.device(),
                first.sequence(),
                first.deviceTime(),
                Duration.ZERO,
                first.base(),
                fixture.entry(stop, "visit.note", "{'line':'a','text':'Something else'}")
                        .body(),
                first.author());
        EntryAnswer answer = inbox.take(other);
        assertThat(answer.status()).isEqualTo(Status.REFUSED);
        assertThat(answer.code()).isEqualTo("tablet.id-reused");
        assertThat(view().notes()).extracting(VisitView.Note::text).containsExactly("Door code changed");
    }

    @Test
    void saysAtOnceThatAnInstrumentReadsLowAndWhatToDo() {
        InstrumentId low = fixture.refractometer("1.0186");
        EntryAnswer answer = take("visit.reading", VisitFixture.salinity(stop, low, "1.025"));
        assertThat(answer.status()).isEqualTo(Status.APPLIED);
        assertThat(answer.args().get("verdict")).isEqualTo("ABOVE");
        assertThat(answer.args().get("verdictAsRead")).isEqualTo("INSIDE");
        assertThat(answer.args().get("trusted")).isEqualTo(false);
        assertThat((Double) answer.args().get("corrected")).isBetween(1.032, 1.034);
        assertThat(String.valueOf(answer.args().get("words"))).contains("Do not correct it in one visit");
        assertThat((Map<?, ?>) answer.args().get("mark")).isNotNull();
        // One standard alone has spoken so far.
        assertThat(answer.args()).doesNotContainKey("ramp");

        fixture.check(low, "1.0186", 3600);
        EntryAnswer confirmed = take("visit.reading", VisitFixture.salinity(stop, low, "1.025"));
        assertThat((List<?>) confirmed.args().get("ramp")).isNotEmpty();
    }

    @Test
    void asksBackAGravityInASalinityFieldAndKeepsNothing() {
        EntryAnswer answer = take(
                "visit.reading",
                "{'system':'%s','quantity':'SALINITY','answer':'VALUE','value':'1.0250','unit':'S'}"
                        .formatted(stop.system()));
        assertThat(answer.status()).isEqualTo(Status.REFUSED);
        assertThat(answer.code()).isEqualTo("units.value-implausible-likely");
        assertThat(String.valueOf(answer.args().get("words")))
                .contains("1.0250")
                .contains("SG");
        assertThat(readings.byVisit(stop.visit())).isEmpty();
        assertThat(view().fields()).doesNotContainKey("reading/" + stop.system() + "/SALINITY");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '"', textBlock = """
            SALINITY   | SG   | 35   | 'gravityReference':'20/20', | units.value-implausible-likely | Did you mean 35 S?
            PH         | pH   | 82   |                             | units.value-implausible-likely | Did you mean 8.2 pH?
            ALKALINITY | dKH  | 140  |                             | units.value-implausible-likely | Did you mean 140 mg/L CaCO
            AMMONIA    | mg/L | 0    |                             | readings.zero-below-detection  | Below what the method can see
            """)
    void asksBackWithWhatWasLikelyMeantAndKeepsNothing(
            String quantity, String unit, String value, @Nullable String more, String code, String likelyMeant) {
        EntryAnswer answer = take(
                "visit.reading",
                "{%s'system':'%s','quantity':'%s','answer':'VALUE','value':'%s','unit':'%s'}"
                        .formatted(more == null ? "" : more, stop.system(), quantity, value, unit));
        assertThat(answer.status()).isEqualTo(Status.REFUSED);
        assertThat(answer.code()).isEqualTo(code);
        assertThat(String.valueOf(answer.args().get("words")))
                .startsWith(value + " ")
                .contains(likelyMeant);
        assertThat(readings.byVisit(stop.visit())).isEmpty();
    }

    @Test
    void saysAtOnceWhatMustBeRepeatedBeforeAnybodyLeavesAndWhereTwoInstrumentsDisagree() {
        // On the limit itself: a thermometer cannot tell on which side of it the water is.
        EntryAnswer warm = take(
                "visit.reading",
                "{'system':'%s','quantity':'TEMPERATURE','answer':'VALUE','value':'27.0','unit':'degC','kitLot':'T-1'}"
                        .formatted(stop.system()));
        assertThat(warm.args().get("verdict")).isEqualTo("UNDECIDED");
        assertThat(String.valueOf(warm.args().get("words"))).contains("repeat=Measure it again before you leave");
        String low = VisitFixture.salinity(stop, fixture.refractometer("1.0266"), "1.025");
        assertThat(String.valueOf(take("visit.reading", low).args().get("words")))
                .doesNotContain("disagree");
        String high = VisitFixture.salinity(stop, fixture.refractometer("1.0266"), "1.032");
        EntryAnswer second = inbox.take(fixture.entry(stop, "visit.reading", high, low));
        assertThat(String.valueOf(second.args().get("words")))
                .contains("disagree by more than their uncertainties allow", "Measure the sample once more with both");
    }

    @Test
    void callsAKindOfAnswerAtTheVisitWhatItIsCalledInTheOffice() {
        assertThat(words.in(Locale.UK))
                .containsEntry("answer.BELOW_DETECTION", "Below what the method can see")
                .containsEntry("answer.NOT_MEASURED", "Not measured");
    }

    /** 34 °C is 7 above the target of 23 to 27, 22 °C one below it; a thermometer is off by far less. */
    @Test
    void asksBeforeLeavingWhatWasDoneAboutWhatKills() {
        EntryAnswer hot = take("visit.reading", temperature("34.0"));
        assertThat(hot.args().get("verdict")).isEqualTo("ABOVE");
        assertThat(hot.args().get("peril"))
                .isEqualTo(Map.of(
                        "certain",
                        true,
                        "words",
                        "Dangerous: it is too hot for these animals, and warm water holds little oxygen.",
                        "plan",
                        "/emergencies?system=" + stop.system() + "#OVERHEATING",
                        "planWords",
                        "Too hot"));
        assertThat(followups.open())
                .anyMatch(each -> each.code().equals("readings.deadly.TEMPERATURE")
                        && each.subjectId().equals(stop.system().value()));
        answerDeparture();

        EntryAnswer refused = take("visit.finish", "{}");
        assertThat(refused.code()).isEqualTo("visits.danger-open");
        assertThat(String.valueOf(refused.args().get("words"))).contains("Temperature (34.0 °C)");
        assertThat(view().finished()).isFalse();
        assertThat(dueVisits.require(stop.due()).state()).isNotEqualTo(PlannedVisitState.DONE);

        assertThat(take("visit.danger", "{'system':'%s','reading':'%s'}".formatted(stop.system(), UUID.randomUUID()))
                        .code())
                .isEqualTo("visits.reading-elsewhere");
        EntryAnswer said = take(
                "visit.danger",
                "{'system':'%s','reading':'%s','done':'Heater unplugged'}"
                        .formatted(stop.system(), hot.args().get("reading")));
        assertThat(said.status()).isEqualTo(Status.APPLIED);
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
    }

    @Test
    void asksNoMoreOnceALaterReadingTellsThatTheDangerIsOver() {
        EntryAnswer cold = take("visit.reading", temperature("22.0"));
        assertThat(String.valueOf(cold.args().get("peril"))).contains("#COLD");
        answerDeparture();
        assertThat(take("visit.finish", "{}").code()).isEqualTo("visits.danger-open");

        clock.advance(Duration.ofMinutes(1));
        EntryAnswer undecided =
                inbox.take(fixture.entry(stop, "visit.reading", temperature("27.0"), temperature("22.0")));
        assertThat(String.valueOf(undecided.args().get("peril"))).contains("certain=false");
        assertThat(take("visit.finish", "{}").code()).isEqualTo("visits.danger-open");

        clock.advance(Duration.ofMinutes(1));
        EntryAnswer fine = inbox.take(fixture.entry(stop, "visit.reading", temperature("25.0"), temperature("27.0")));
        assertThat(fine.args()).doesNotContainKey("peril");
        assertThat(followups.open())
                .noneMatch(each -> each.subjectId().equals(stop.system().value()));
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
    }

    /** A method that sees nothing below 50 mg/L says nothing of water in which nothing may be found. */
    @Test
    void asksAboutWhatWasNotFoundByAMethodThatCannotSeeIt() {
        jdbc.sql("""
                        insert into target (water_system, quantity, low, high, unit)
                        values (:system, 'AMMONIA', null, 0, 'mg/L'), (:system, 'NITRITE', null, 0, 'mg/L')
                        """).param("system", stop.system().value()).update();
        answerDeparture();
        for (String poison : List.of("AMMONIA", "NITRITE")) {
            EntryAnswer blind = take("visit.reading", poison(poison, "BELOW_DETECTION", "50"));
            assertThat(blind.args().get("verdict")).isEqualTo("UNDECIDED");
            assertThat(blind.args()).containsKey("peril");
            assertThat(take("visit.finish", "{}").code()).isEqualTo("visits.danger-open");
            assertThat(matters("readings.repeat." + poison)).isOne();
            clock.advance(Duration.ofMinutes(1));
            EntryAnswer fine = inbox.take(fixture.entry(
                    stop,
                    "visit.reading",
                    poison(poison, "BELOW_DETECTION", "0.05"),
                    poison(poison, "BELOW_DETECTION", "50")));
            assertThat(fine.args().get("verdict")).isEqualTo("INSIDE");
            assertThat(matters("readings.repeat." + poison)).isZero();
        }
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
    }

    /** Nobody agreed a target for any of them; 4 mg/L of oxygen and no poison at all are common practice, no source. */
    @ParameterizedTest
    @CsvSource({
        "OXYGEN, 0.5, VALUE, 7.5, BELOW",
        "COPPER, 2, BELOW_DETECTION, 0.05, ABOVE",
        "CHLORINE, 2, BELOW_DETECTION, 0.05, ABOVE",
        "FREE_CHLORINE, 2, BELOW_DETECTION, 0.05, ABOVE",
        "TOTAL_CHLORINE, 2, BELOW_DETECTION, 0.05, ABOVE",
        "AMMONIA, 4, BELOW_DETECTION, 0.05, ABOVE",
        "NITRITE, 4, BELOW_DETECTION, 0.05, ABOVE"
    })
    void asksAboutWhatKillsThoughNoTargetIsAgreed(
            String quantity, String deadly, String answer, String harmless, String verdict) {
        answerDeparture();
        EntryAnswer found = take("visit.reading", poison(quantity, "VALUE", deadly));
        assertThat(found.args().get("verdict")).isEqualTo(verdict);
        assertThat(String.valueOf(found.args().get("peril"))).contains("certain=true", "Dangerous");
        assertThat(String.valueOf(found.args().get("words")))
                .contains("No target is agreed for it, but")
                .doesNotContain("target=");
        assertThat(matters("readings.deadly." + quantity)).isOne();
        assertThat(take("visit.finish", "{}").code()).isEqualTo("visits.danger-open");

        clock.advance(Duration.ofMinutes(1));
        EntryAnswer fine = inbox.take(fixture.entry(
                stop, "visit.reading", poison(quantity, answer, harmless), poison(quantity, "VALUE", deadly)));
        assertThat(fine.args().get("verdict")).isEqualTo("NO_TARGET");
        assertThat(matters("readings.deadly." + quantity)).isZero();
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
    }

    @Test
    void letsOnlyATrustedReadingLiftTheQuestion() {
        answerDeparture();
        EntryAnswer hot = take("visit.reading", temperature("34.0"));
        clock.advance(Duration.ofMinutes(1));
        String unnamed = temperature("25.0").replace(",'kitLot':'T-1'", "");
        EntryAnswer cool = inbox.take(fixture.entry(stop, "visit.reading", unnamed, temperature("34.0")));
        assertThat(cool.args().get("trusted")).isEqualTo(false);
        assertThat(cool.args()).doesNotContainKey("peril");
        assertThat(String.valueOf(cool.args().get("asked")))
                .contains(String.valueOf(hot.args().get("reading")));
        assertThat(take("visit.finish", "{}").code()).isEqualTo("visits.danger-open");
        assertThat(work().asked()).hasSize(1);

        clock.advance(Duration.ofMinutes(1));
        EntryAnswer fine = inbox.take(fixture.entry(stop, "visit.reading", temperature("25.0"), unnamed));
        assertThat(fine.args()).doesNotContainKeys("peril", "asked");
        assertThat(work().asked()).isEmpty();
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
    }

    @Test
    void asksStillAboutADangerousReadingThatIsTakenBackAndWantsWords() {
        answerDeparture();
        EntryAnswer hot = take("visit.reading", temperature("34.0"));
        String reading = String.valueOf(hot.args().get("reading"));
        String back =
                "{'system':'%s','quantity':'TEMPERATURE','answer':'NOT_MEASURED','unit':'degC','because':'Wrong tank',"
                                .formatted(stop.system())
                        + "'reading':'" + reading + "','reason':'%s'}";
        EntryAnswer dot =
                inbox.take(fixture.entry(stop, "visit.correct-reading", back.formatted("."), temperature("34.0")));
        assertThat(dot.code()).isEqualTo("web.reason-without-words");
        assertThat(dot.args().get("field")).isEqualTo("reason");
        EntryAnswer taken = inbox.take(fixture.entry(
                stop, "visit.correct-reading", back.formatted("Read at the wrong tank"), temperature("34.0")));
        assertThat(taken.status()).isEqualTo(Status.APPLIED);
        assertThat(String.valueOf(taken.args().get("asked"))).contains(reading);
        assertThat(work().asked()).extracting(each -> each.id().toString()).containsExactly(reading);
        assertThat(take("visit.finish", "{}").code()).isEqualTo("visits.danger-open");

        String done = "{'system':'%s','reading':'" + reading + "','done':'%s'}";
        assertThat(take("visit.danger", done.formatted(stop.system(), ".")).code())
                .isEqualTo("web.reason-without-words");
        WaterSystemId beside =
                WaterSystemId.of(new TestBusiness(jdbc).system(stop.site().value(), "Hall", "HEALTHY"));
        assertThat(take("visit.danger", done.formatted(beside, "Heater unplugged"))
                        .code())
                .isEqualTo("visits.reading-elsewhere");
        assertThat(take("visit.danger", done.formatted(stop.system(), "Heater unplugged"))
                        .status())
                .isEqualTo(Status.APPLIED);
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
    }

    @Test
    void letsACorrectedDigitLiftTheQuestion() {
        answerDeparture();
        EntryAnswer hot = take("visit.reading", temperature("34.0"));
        String right = temperature("24.0")
                .replace(
                        "}",
                        ",'reading':'%s','reason':'Mistyped here'}"
                                .formatted(hot.args().get("reading")));
        assertThat(inbox.take(fixture.entry(stop, "visit.correct-reading", right, temperature("34.0")))
                        .status())
                .isEqualTo(Status.APPLIED);
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
    }

    @Test
    void tellsTheOfficeOfADeadlyReadingThatArrivesAfterTheEnd() {
        answerDeparture();
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
        assertThat(take("visit.reading", temperature("34.0")).args()).containsKey("peril");
        assertThat(matters("readings.deadly.TEMPERATURE")).isOne();
        assertThat(work().asked()).hasSize(1);
    }

    /** Whichever is first: a reading before the end is asked about, and one after it is the office's matter. */
    @RepeatedTest(5)
    void losesNoDeadlyReadingThatArrivesTogetherWithTheEnd() throws Exception {
        answerDeparture();
        List<EntryAnswer> answers = atOnce(
                2, number -> number == 0 ? take("visit.reading", temperature("34.0")) : take("visit.finish", "{}"));
        assertThat(answers.getFirst().status()).isEqualTo(Status.APPLIED);
        assertThat(matters("readings.deadly.TEMPERATURE")).isOne();
        assertThat(answers.getLast().status() == Status.APPLIED).isEqualTo(view().finished());
    }

    @Test
    void tellsAtOnceOfADeadlyReadingThatStandsAgainstAnotherOne() {
        answerDeparture();
        take("visit.reading", temperature("25.0"));
        EntryAnswer against = take("visit.reading", temperature("34.0"));
        assertThat(against.status()).isEqualTo(Status.CONFLICT);
        assertThat(String.valueOf(against.args().get("peril"))).contains("certain=true");
        assertThat(matters("readings.deadly.TEMPERATURE")).isOne();
        assertThat(readings.byVisit(stop.visit())).hasSize(1);
        assertThat(take("visit.finish", "{}").code()).isEqualTo("visits.conflict-open");
        String key = "reading/" + stop.system() + "/TEMPERATURE";
        assertThat(entries.contested(view(), Locale.UK))
                .hasEntrySatisfying(key, said -> assertThat(said.toString()).contains("34.0", "certain=true"));

        inbox.take(fixture.entry(stop, "visit.reading", temperature("34.0"), temperature("25.0")));

        assertThat(entries.contested(view(), Locale.UK)).isEmpty();
    }

    @Test
    void showsNoRawNameOfAFieldToAPerson() {
        EntryAnswer missing =
                take("visit.reading", "{'system':'%s','answer':'VALUE','unit':'S'}".formatted(stop.system()));
        assertThat(missing.args().get("field")).isEqualTo("quantity");
        assertThat(missing.args().get("args")).isEqualTo(List.of("quantity"));
        assertThat(missing.args().get("words")).isEqualTo("\u201cwhat was measured\u201d is missing.");
    }

    @Test
    void keepsNoReasonOfAnAnswerBeforeLeavingThatWasTakenBack() {
        take("visit.departure", "{'line':'HEATER_ON','answer':'NO','because':'Burnt out'}");
        inbox.take(fixture.entry(
                stop,
                "visit.departure",
                "{'line':'HEATER_ON','because':'Burnt ou'}",
                "{'line':'HEATER_ON','answer':'NO','because':'Burnt out'}"));
        assertThat(view().departure())
                .filteredOn(each -> each.line() == VisitView.DepartureLine.HEATER_ON)
                .singleElement()
                .satisfies(each -> {
                    assertThat(each.answer()).isEmpty();
                    assertThat(each.because()).isEmpty();
                });
    }

    private long matters(String code) {
        return followups.open().stream()
                .filter(each -> each.code().equals(code)
                        && each.subjectId().equals(stop.system().value())
                        && each.urgency().compareTo(Urgency.NOW) <= 0)
                .count();
    }

    private String poison(String quantity, String answer, String value) {
        return "{'system':'%s','quantity':'%s','answer':'%s','value':'%s','unit':'mg/L','kitLot':'K-1'}"
                .formatted(stop.system(), quantity, answer, value);
    }

    private String temperature(String celsius) {
        return "{'system':'%s','quantity':'TEMPERATURE','answer':'VALUE','value':'%s','unit':'degC','kitLot':'T-1'}"
                .formatted(stop.system(), celsius);
    }

    @Test
    void refusesANumberThatCanBeReadTwoWays() {
        InstrumentId instrument = fixture.refractometer("1.0266");
        EntryAnswer answer = take("visit.reading", VisitFixture.salinity(stop, instrument, "1,025"));
        assertThat(answer.status()).isEqualTo(Status.REFUSED);
        assertThat(answer.code()).isEqualTo("web.number-ambiguous");
        assertThat(answer.args().get("field")).isEqualTo("value");
    }

    @Test
    void keepsACorrectedReadingAndItsReason() {
        InstrumentId instrument = fixture.refractometer("1.0266");
        String first = VisitFixture.salinity(stop, instrument, "1.035");
        EntryAnswer recorded = take("visit.reading", first);
        String corrected = VisitFixture.salinity(stop, instrument, "1.025")
                .replace(
                        "}",
                        ",'reading':'%s','reason':'Mistyped here'}"
                                .formatted(recorded.args().get("reading")));
        EntryAnswer answer = inbox.take(fixture.entry(stop, "visit.correct-reading", corrected, first));
        assertThat(answer.status()).isEqualTo(Status.APPLIED);
        ReadingView now = readings.byVisit(stop.visit()).getFirst();
        assertThat(now.value().orElseThrow().toPlainString()).isEqualTo("1.025");
        assertThat(now.reason()).contains("Mistyped here");
    }

    @Test
    void measuresNoSalinityOfASumpThatIsLow() {
        InstrumentId instrument = fixture.refractometer("1.0266");
        String low = "{'system':'%s','atMark':false}".formatted(stop.system());
        take("visit.top-up", low);
        assertThat(take("visit.reading", VisitFixture.salinity(stop, instrument, "1.025"))
                        .code())
                .isEqualTo("visits.sump-low");
        inbox.take(fixture.entry(
                stop, "visit.top-up", "{'system':'%s','atMark':false,'filledUp':'4.5'}".formatted(stop.system()), low));
        assertThat(take("visit.reading", VisitFixture.salinity(stop, instrument, "1.025"))
                        .status())
                .isEqualTo(Status.APPLIED);
        assertThat(work().topUp().orElseThrow().filledUp().orElseThrow().litres())
                .isEqualTo(4.5);
    }

    /**
     * 20 of 400 L missing are 5 %: the trusted 35 would read 36.8, a drop of 1.8 once it is topped up. SG 1.0266 and 1.0280
     * at 20/20 are S 35.0 and 36.8 (EOS-80).
     */
    @Test
    void tellsEvaporationFromALeakBeforeAnythingIsFilledUp() {
        InstrumentId sound = bench.refractometer();
        bench.check(sound, bench.salinityStandard("0"), bench.daysAgo(3), "1.000", "1.000");
        bench.check(sound, bench.salinityStandard("35"), bench.daysAgo(3), "1.0266", "1.0266");
        readings.record(bench.gravity(stop.system(), sound, bench.person(), "1.0266", bench.daysAgo(2)));
        String evaporated =
                "{'system':'%s','atMark':false,'missing':'20','salinity':'1.0280','salinityUnit':'SG','gravityReference':'20/20'}"
                        .formatted(stop.system());
        String leaked = evaporated.replace("1.0280", "1.0266");

        assertThat(String.valueOf(take("visit.top-up", evaporated).args().get("words")))
                .contains(
                        "With 5% of the water missing",
                        "S 36.8", "Top up 20 L of RO/DI water slowly", "falls by S 1.8");
        assertThat(String.valueOf(inbox.take(fixture.entry(stop, "visit.top-up", leaked, evaporated))
                        .args()
                        .get("words")))
                .contains("salt water was lost", "not with fresh water");
    }

    @Test
    void refusesASumpThatLostMoreThanHalfOfAll() {
        assertThat(take("visit.top-up", "{'system':'%s','atMark':false,'missing':'210'}".formatted(stop.system()))
                        .code())
                .isEqualTo("visits.low-sump.too-much-missing");
    }

    @Test
    void keepsBothValuesWhenAFieldChangedMeanwhile() {
        String first = "{'system':'%s','out':'40'}".formatted(stop.system());
        String second = "{'system':'%s','out':'45'}".formatted(stop.system());
        take("visit.water-change", first);
        EntryAnswer answer = take("visit.water-change", second);
        assertThat(answer.status()).isEqualTo(Status.CONFLICT);
        assertThat(answer.args()).containsKeys("theirs", "by");
        assertThat(work().waterChange().orElseThrow().out().litres()).isEqualTo(40);
        assertThat(view().inConflict()).isTrue();
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.REFUSED);

        inbox.take(fixture.entry(stop, "visit.water-change", second, first));
        assertThat(work().waterChange().orElseThrow().out().litres()).isEqualTo(45);
        assertThat(view().inConflict()).isFalse();
    }

    @Test
    void registersAWaterChangeAndADoseWithTheReadingsBehindThem() {
        InstrumentId instrument = fixture.refractometer("1.0266");
        take("visit.reading", VisitFixture.salinity(stop, instrument, "1.025"));
        take(
                "visit.water-change",
                "{'system':'%s','out':'40','in':'42','salinity':'1.0250','salinityUnit':'SG','gravityReference':'20/20'}"
                        .formatted(stop.system()));
        take(
                "visit.dose",
                "{'system':'%s','line':'d1','product':'Alkalinity buffer','amount':'30','unit':'mL'}"
                        .formatted(stop.system()));
        ReadingView reading = readings.byVisit(stop.visit()).getFirst();
        assertThat(decisions.restingOn(List.of(reading.id())).get(reading.id()))
                .extracting(decision -> decision.kind())
                .containsExactlyInAnyOrder("water-change", "dose");
        assertThat(work().waterChange().orElseThrow().putIn().litres()).isEqualTo(42);
        assertThat(work().doses()).extracting(VisitView.Dose::product).containsExactly("Alkalinity buffer");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '"',
            value = {
                "visit.water-change; 'out':'-1'; visits.volume-out-of-range",
                "visit.water-change; 'out':'801'; visits.volume-out-of-range",
                "visit.water-change; 'out':'forty'; web.number-malformed",
                "visit.water-change; 'out':40; visits.malformed",
                "visit.water-change; 'in':'40'; visits.number-missing",
                "visit.socks; 'sizeMm':'9','count':'2'; visits.number-out-of-range",
                "visit.socks; 'sizeMm':'100','count':'1.5'; web.number-not-whole",
                "visit.socks; 'sizeMm':'100','lengthMm':'3001','count':'2'; visits.number-out-of-range",
                "visit.socks; 'sizeMm':'100','finenessUm':'fine','count':'2'; web.number-malformed",
                "visit.dose; 'line':'d','product':'Buffer','amount':'0','unit':'mL'; visits.number-out-of-range",
                "visit.dose; 'line':'d','product':'Buffer','amount':'3','unit':'cup'; visits.not-a-choice",
                "visit.top-up; 'atMark':'yes'; visits.not-yes-or-no",
                "visit.top-up; 'filledUp':'3'; visits.missing",
                "visit.dose; 'line':'d','product':'Buffer','amount':'3','unit':'mL','prepared':'yes'; visits.not-yes-or-no",
                "visit.reading; 'quantity':'VOLUME_MADE','answer':'VALUE','value':'90','unit':'L'; readings.only-of-a-supply",
            })
    void refusesAtTheFieldWhatCannotBe(String kind, String members, String code) {
        EntryAnswer answer = take(kind, "{'system':'%s',%s}".formatted(stop.system(), members.strip()));
        assertThat(answer.status()).isEqualTo(Status.REFUSED);
        assertThat(answer.code()).isEqualTo(code);
        assertThat(String.valueOf(answer.args().get("words")))
                .isNotEqualTo(code)
                .isNotBlank();
        assertThat(view().fields().keySet()).containsExactly("start");
    }

    /** Half a degree a day (common practice) in 400 L is 0.5 x 4 x 2.996 g = 5.99 g of sodium bicarbonate. */
    @Test
    void holdsADoseToTheDayUnlessItWasGivenAllTheSame() {
        String dose = "{'system':'%1$s','line':'d%2$s','product':'NaHCO3','unit':'g','amount':'%2$s'%3$s}";

        EntryAnswer refused = take("visit.dose", dose.formatted(stop.system(), "9", ""));

        assertThat(refused.code()).isEqualTo("plans.dose.too-much");
        assertThat(String.valueOf(refused.args().get("words"))).contains("9 g", "5.99 g", "400 L");
        assertThat(work().doses()).isEmpty();
        assertThat(take("visit.dose", dose.formatted(stop.system(), "5", "")).status())
                .isEqualTo(Status.APPLIED);
        assertThat(take("visit.dose", dose.formatted(stop.system(), "9", ",'because':'Poured before anybody looked'"))
                        .status())
                .isEqualTo(Status.APPLIED);
        EntryAnswer medicine = take(
                "visit.dose",
                "{'system':'%s','line':'m','product':'Copper sulfate','unit':'mL','amount':'1'}"
                        .formatted(stop.system()));
        assertThat(String.valueOf(medicine.args().get("words"))).contains("UV and ozone off");
    }

    @ParameterizedTest
    @ValueSource(strings = {"'abc'", "7", "true", "{'a':1}", "['abc']"})
    void refusesVisitsThatAreNoListAtTheirField(String stated) {
        EntryAnswer answer = inbox.take(at(
                Uuids.next(TestClock.START),
                "visit.start",
                "{'site':'%s','plannedVisits':%s}".formatted(stop.site(), stated)));

        assertThat(answer.status()).isEqualTo(Status.REFUSED);
        assertThat(answer.args().get("field")).isEqualTo("plannedVisits");
    }

    /** Alkalinity moves with salinity, and a plan's step follows from what alkalinity is now. */
    @Test
    void asksForTheReadingsThatTheStepOfAPlanFollowsFrom() {
        readings.record(bench.believed(NewReading.of(
                ReadingId.of(Uuids.next(TestClock.START)),
                stop.system(),
                Quantity.ALKALINITY,
                new BigDecimal("6"),
                MeasurementUnit.DEGREE_CARBONATE_HARDNESS,
                TestClock.START.minusSeconds(86_400),
                bench.person())));
        CorrectivePlanId plan = making.propose(new NewPlan(
                CorrectivePlanId.of(UUID.randomUUID()),
                stop.system(),
                Quantity.ALKALINITY,
                8,
                Optional.of(Salt.SODIUM_BICARBONATE),
                1,
                0,
                0,
                0,
                0,
                20,
                100,
                Optional.empty()));
        following.start(plan, plans.require(plan).version());
        String step = "{'plannedVisit':'%s','position':'4','state':'DONE'%%s}".formatted(stop.due());
        assertThat(work().tasks().get(4).agreed().item()).contains("NaHCO3");

        EntryAnswer refused = take("visit.task", step.formatted(""));

        assertThat(refused.code()).isEqualTo("visits.measure-first");
        assertThat(String.valueOf(refused.args().get("words"))).contains("Salinity; Ammonia, total; Alkalinity");
        assertThat(take("visit.task", step.formatted(",'unmeasured':'.'")).code())
                .isEqualTo("web.reason-without-words");
        assertThat(take("visit.task", step.formatted(",'unmeasured':'The kit is not here'"))
                        .status())
                .isEqualTo(Status.APPLIED);
    }

    /** What was measured and what was dosed may arrive together, after hours without a connection. */
    @Test
    void holdsWhatRaisesPhAgainstTheAmmoniaOfTheSameVisit() {
        String dose = "{'system':'%s','line':'d','product':'Alkalinity buffer','unit':'mL','amount':'5'}"
                .formatted(stop.system());
        String ammonia =
                "{'system':'%s','quantity':'AMMONIA','answer':'VALUE','value':'2.0','unit':'mg/L','kitLot':'A-17'}"
                        .formatted(stop.system());

        assertThatExceptionOfType(EntriesRefused.class)
                .isThrownBy(() -> inbox.takeAll(List.of(
                        fixture.entry(stop, "visit.reading", ammonia), fixture.entry(stop, "visit.dose", dose))))
                .withMessageContaining("plans.dose.ammonia-blind");

        take("visit.reading", ammonia);
        EntryAnswer refused = take("visit.dose", dose);
        assertThat(refused.code()).isEqualTo("plans.dose.ammonia-blind");
        assertThat(String.valueOf(refused.args().get("words")))
                .contains("Alkalinity buffer", "2 mg/L", "measure pH and temperature");
        assertThat(work().doses()).isEmpty();
    }

    /** 5.99 g a day, as above: of 5 g at each of eight visits at once, one is given. */
    @Test
    void holdsDosesOfVisitsAtOnceToTheDay() throws Exception {
        String dose = "{'system':'%s','line':'d','product':'NaHCO3','unit':'g','amount':'5'}".formatted(stop.system());
        List<UUID> together = IntStream.range(0, 8)
                .mapToObj(number -> Uuids.next(TestClock.START))
                .toList();
        together.forEach(visit -> inbox.take(at(visit, "visit.start", "{'site':'%s'}".formatted(stop.site()))));

        List<EntryAnswer> answers =
                atOnce(together.size(), number -> inbox.take(at(together.get(number), "visit.dose", dose)));

        assertThat(answers)
                .filteredOn(answer -> answer.status() == Status.APPLIED)
                .hasSize(1);
        assertThat(answers)
                .filteredOn(answer -> answer.status() == Status.REFUSED)
                .extracting(EntryAnswer::code)
                .hasSize(7)
                .containsOnly("plans.dose.too-much");
    }

    private Entry at(UUID visit, String kind, String body) {
        Entry entry = fixture.entry(stop, kind, body);
        return new Entry(
                entry.id(),
                kind,
                Optional.of(visit),
                entry.device(),
                entry.sequence(),
                entry.deviceTime(),
                Duration.ZERO,
                entry.base(),
                entry.body(),
                entry.author());
    }

    /** The device says that the dose was given a day before the visit. */
    @Test
    void takesADoseToBeGivenNoEarlierThanItsVisitBegan() {
        String dose = "{'system':'%s','line':'%s','product':'NaHCO3','unit':'g','amount':'5'}";
        take("visit.dose", dose.formatted(stop.system(), "a"));
        Entry sent = fixture.entry(stop, "visit.dose", dose.formatted(stop.system(), "b"));

        EntryAnswer answer = inbox.take(new Entry(
                sent.id(),
                sent.kind(),
                sent.subject(),
                sent.device(),
                sent.sequence(),
                sent.deviceTime().minusDays(2),
                Duration.ZERO,
                sent.base(),
                sent.body(),
                sent.author()));

        assertThat(answer.code()).isEqualTo("plans.dose.too-much");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '`',
            value = {
                "visit.dose; 'line':'d','product':'Bu\\u0007ffer','amount':'3','unit':'mL'; product",
                "visit.dose; 'line':'d','product':'Buffer','amount':'3','unit':'mL','because':'Poured by\\u0001 somebody'; because",
                "visit.note; 'line':'n','text':'Door\\u0007 code'; text",
                "visit.signature; 'name':'A. Tern\\u001b'; name",
                "visit.reading; 'quantity':'NITRATE','answer':'VALUE','value':'7','unit':'mg/L','kitLot':'N\\u0007-1'; kitLot"
            })
    void refusesWhatCannotBePrinted(String kind, String members, String field) {
        EntryAnswer answer = take(kind, "{'system':'%s',%s}".formatted(stop.system(), members));

        assertThat(answer.code()).isEqualTo("web.text-control");
        assertThat(answer.args().get("field")).isEqualTo(field);
        assertThat(String.valueOf(answer.args().get("words"))).contains("cannot be printed");
        assertThat(view().fields().keySet()).containsExactly("start");
    }

    @ParameterizedTest
    @ValueSource(strings = {".", "---", "ok", "asdfgh", "12 34"})
    void takesNoSignForAReason(String because) {
        EntryAnswer answer = take(
                "visit.dose",
                "{'system':'%s','line':'d','product':'NaHCO3','unit':'g','amount':'90','because':'%s'}"
                        .formatted(stop.system(), because));

        assertThat(answer.code()).isEqualTo("web.reason-without-words");
        assertThat(answer.args().get("field")).isEqualTo("because");
    }

    @Test
    void saysThatNothingWasCheckedWhereNoLimitIsKnown() {
        EntryAnswer answer = take(
                "visit.dose",
                "{'system':'%s','line':'d','product':'Trace mix','unit':'mL','amount':'300'}".formatted(stop.system()));

        assertThat(answer.status()).isEqualTo(Status.APPLIED);
        assertThat(answer.code()).isEqualTo("plans.dose.no-limit");
        assertThat(String.valueOf(answer.args().get("words")))
                .startsWith("Trace mix: no limit is known for this product")
                .contains("not checked");
    }

    @Test
    void letsACorrectedDoseOrChangeTakeThePlaceOfTheOneBefore() {
        take("visit.reading", VisitFixture.salinity(stop, fixture.refractometer("1.0266"), "1.025"));
        String dose =
                "{'system':'%s','line':'d','product':'Trace mix','unit':'mL','amount':'30'}".formatted(stop.system());
        String change = "{'system':'%s','out':'40'}".formatted(stop.system());
        take("visit.dose", dose);
        take("visit.water-change", change);

        inbox.take(fixture.entry(stop, "visit.dose", dose.replace("'30'", "'3'"), dose));
        inbox.take(fixture.entry(stop, "visit.water-change", change.replace("'40'", "'44'"), change));

        ReadingView reading = readings.byVisit(stop.visit()).getFirst();
        assertThat(decisions.restingOn(List.of(reading.id())).get(reading.id()))
                .extracting(decision -> decision.kind() + " " + decision.args().getFirst())
                .containsExactlyInAnyOrder("dose 3", "water-change 44");
        assertThat(jdbc.sql("select count(*) from decision where subject_id = :system and replaced_at is not null")
                        .param("system", stop.system().value())
                        .query(Integer.class)
                        .single())
                .isEqualTo(2);
    }

    /** Half a degree a day (common practice) in 400 L is 0.5 x 4 x 2.996 g = 5.99 g of sodium bicarbonate. */
    @Test
    void holdsATickedDoseToTheDayAsWellAndCountsItOnce() {
        stop = fixture.stop(TaskView.dose("NaHCO3", new BigDecimal("9"), "g"));
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
        take("visit.reading", VisitFixture.salinity(stop, fixture.refractometer("1.0266"), "1.025"));
        String done = "{'plannedVisit':'%s','position':'3','state':'DONE'}".formatted(stop.due());

        assertThat(take("visit.task", done).code()).isEqualTo("plans.dose.too-much");
        assertThat(work().tasks().get(3).state()).isEqualTo(TaskState.OPEN);

        String given = done.replace("'DONE'", "'DONE','because':'Poured before anybody looked'");
        EntryAnswer against = take("visit.task", given);
        assertThat(against.status()).isEqualTo(Status.APPLIED);
        assertThat(against.code()).isEqualTo("plans.dose.given-against");
        assertThat(work().tasks().get(3).state()).isEqualTo(TaskState.DONE);
        assertThat(followups.open())
                .filteredOn(matter -> matter.subjectId().equals(stop.system().value()))
                .extracting(FollowupView::code)
                .containsExactly("plans.followup.dose-against");
        assertThat(doses()).containsExactly("9 g of NaHCO3");

        String dose =
                "{'system':'%s','line':'d','product':'NaHCO3','unit':'g','amount':'5'%%s}".formatted(stop.system());
        assertThat(take("visit.dose", dose.formatted("")).code()).isEqualTo("plans.dose.same-or-further");
        assertThat(take("visit.dose", dose.formatted(",'further':true")).code()).isEqualTo("plans.dose.too-much");
        // What was written down says more than the tick.
        EntryAnswer entered = take("visit.dose", dose.formatted(",'further':false"));
        assertThat(entered.status()).isEqualTo(Status.APPLIED);
        assertThat(doses()).containsExactly("5 g of NaHCO3");
    }

    /** What stands as a dose. */
    private List<String> doses() {
        ReadingView reading = readings.byVisit(stop.visit()).getFirst();
        return decisions.restingOn(List.of(reading.id())).getOrDefault(reading.id(), List.of()).stream()
                .filter(decision -> decision.kind().equals("dose"))
                .map(decision -> decision.args().get(0) + " " + decision.args().get(1) + " of "
                        + decision.args().get(2))
                .toList();
    }

    @Test
    void countsSocksThatWereAgreedToBeLeftAsHandedOver() {
        stop = fixture.stop(TaskView.socksLeft(2, SockSize.ofDiameter(100)));
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
        assertThat(view().handedOver()).isEmpty();
        take("visit.task", "{'plannedVisit':'%s','position':'3','state':'DONE'}".formatted(stop.due()));
        assertThat(view().handedOver())
                .extracting(VisitView.HandedOver::what, VisitView.HandedOver::text)
                .containsExactly(tuple(VisitView.HandedOver.What.SOCKS, Optional.of("2 × 100 mm")));
    }

    @Test
    void refusesASystemOfAnotherSite() {
        VisitFixture.Stop elsewhere = fixture.stop();
        EntryAnswer answer = take("visit.water-change", "{'system':'%s','out':'40'}".formatted(elsewhere.system()));
        assertThat(answer.code()).isEqualTo("visits.system-elsewhere");
    }

    @Test
    void takesAnAgreedTestForDoneOnceItsReadingIsWritten() {
        stop = fixture.stop(TaskView.test(Quantity.SALINITY), TaskView.test(Quantity.PH));
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
        take(
                "visit.reading",
                "{'system':'%s','quantity':'PH','answer':'NOT_MEASURED','unit':'pH','because':'No reagent'}"
                        .formatted(stop.system()));
        assertThat(work().tasks()).extracting(VisitView.Task::state).containsOnly(TaskState.OPEN);

        take("visit.reading", VisitFixture.salinity(stop, fixture.refractometer("1.0266"), "1.025"));

        assertThat(work().tasks())
                .extracting(VisitView.Task::state)
                .containsExactly(TaskState.OPEN, TaskState.OPEN, TaskState.OPEN, TaskState.DONE, TaskState.OPEN);
    }

    @Test
    void showsWhatWasDoneBesideWhatWasAgreed() {
        String done = "{'plannedVisit':'%s','position':'1','state':'DONE'}".formatted(stop.due());
        String skipped = "{'plannedVisit':'%s','position':'2','state':'SKIPPED','because':'Scraper forgotten'}"
                .formatted(stop.due());
        take("visit.task", done);
        take("visit.task", skipped);
        take("visit.socks", "{'system':'%s','sizeMm':'100','count':'2'}".formatted(stop.system()));
        assertThat(work().tasks())
                .extracting(VisitView.Task::state)
                .containsExactly(TaskState.OPEN, TaskState.DONE, TaskState.SKIPPED);
        assertThat(work().tasks().get(2).skippedBecause()).contains("Scraper forgotten");
        take(
                "visit.socks",
                "{'system':'%s','sizeMm':'100','lengthMm':'400','finenessUm':'200','count':'1'}"
                        .formatted(stop.system()));
        assertThat(work().socks())
                .extracting(socks -> socks.count() + " of " + socks.size().code())
                .containsExactlyInAnyOrder("2 of 100", "1 of 100x400-200");
        assertThat(take("visit.task", "{'plannedVisit':'%s','position':'0','state':'SKIPPED'}".formatted(stop.due()))
                        .code())
                .isEqualTo("visits.skipped-because");
    }

    @Test
    void putsAnimalsInAndTakesLostOnesOffTheStock() {
        Entry added = fixture.entry(
                stop,
                "visit.livestock",
                "{'system':'%s','line':'l1','change':'NEW','count':'3','name':'Ocellaris clownfish'}"
                        .formatted(stop.system()));
        assertThat(inbox.take(added).status()).isEqualTo(Status.APPLIED);
        take(
                "visit.livestock",
                "{'system':'%s','line':'l2','change':'LOST','count':'1','livestock':'%s','note':'Found behind the pump'}"
                        .formatted(stop.system(), added.id()));
        assertThat(systems.livestock(stop.system()).getFirst().quantity()).isEqualTo(2);
        assertThat(take(
                                "visit.livestock",
                                "{'system':'%s','line':'l3','change':'LOST','count':'9','livestock':'%s'}"
                                        .formatted(stop.system(), added.id()))
                        .status())
                .isEqualTo(Status.REFUSED);
        assertThat(systems.livestock(stop.system()).getFirst().quantity()).isEqualTo(2);
        assertThat(work().livestock()).hasSize(2);
    }

    @Test
    void waitsForAPhotoAndAnswersAnewOnceItIsHere() {
        UUID photo = Uuids.next(TestClock.START);
        Entry entry = fixture.entry(stop, "visit.photo", "{'photo':'%s','caption':'Sump'}".formatted(photo));
        assertThat(inbox.take(entry).status()).isEqualTo(Status.WAITING);
        answerDeparture();
        assertThat(take("visit.finish", "{}").code()).isEqualTo("visits.photos-missing");
        files.store(FileId.of(photo), "sump.png", "image/png", new byte[] {1});
        assertThat(inbox.take(entry).status()).isEqualTo(Status.APPLIED);
        assertThat(view().photos()).extracting(VisitView.Photo::arrived).containsExactly(true);
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
    }

    @Test
    void finishesOnlyWhenEveryLineBeforeLeavingIsAnswered() {
        take("visit.departure", "{'line':'HEATER_ON','answer':'YES'}");
        assertThat(take("visit.departure", "{'line':'FLOOR_DRY','answer':'NO'}").code())
                .isEqualTo("visits.departure-because");
        EntryAnswer refused = take("visit.finish", "{}");
        assertThat(refused.code()).isEqualTo("visits.departure-open");
        assertThat(refused.args().get("lines"))
                .isEqualTo(List.of("TOP_OFF_ON", "PUMPS_FLOW", "LEVEL_AT_MARK", "FLOOR_DRY", "RCD_TESTED"));
        assertThat(String.valueOf(refused.args().get("words"))).contains("Top-off is back on");
        assertThat(view().finished()).isFalse();

        for (DepartureLine line : view().openDeparture()) {
            take("visit.departure", "{'line':'%s','answer':'NOT_HERE'}".formatted(line));
        }
        clock.advance(Duration.ofMinutes(50));
        assertThat(take("visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
        assertThat(view().finishedAt()).contains(TestClock.START);
        assertThat(dueVisits.require(stop.due()).state()).isEqualTo(PlannedVisitState.DONE);
        assertThat(rounds.require(stop.round()).stops().getFirst().finishedAt()).isPresent();
        assertThat(view().price().getAmount().toPlainString()).isEqualTo("85.00");
        assertThat(visits.finishedBetween(VisitFixture.TODAY, VisitFixture.TODAY.plusDays(1)))
                .extracting(VisitView::id)
                .contains(VisitId.of(stop.visit()));
    }

    @Test
    void takesTheServersTimeWhenTheDevicesLiesAhead() {
        Entry ahead = fixture.entry(stop, "visit.note", "{'line':'n','text':'From tomorrow'}");
        inbox.take(new Entry(
                ahead.id(),
                ahead.kind(),
                ahead.subject(),
                ahead.device(),
                ahead.sequence(),
                TestClock.START.plus(Duration.ofDays(1)).atOffset(ZoneOffset.ofHours(2)),
                Duration.ZERO,
                ahead.base(),
                ahead.body(),
                ahead.author()));
        assertThat(view().notes().getFirst().at()).isEqualTo(TestClock.START);
        assertThat(jdbc.sql("select entered_offset from visit_entry where id = :id")
                        .param("id", ahead.id())
                        .query(String.class)
                        .single())
                .isEqualTo("+02:00");
    }

    @Test
    void refusesAKindThatNobodyKnows() {
        assertThat(take("visit.dance", "{}").code()).isEqualTo("tablet.kind-unknown");
    }

    @Test
    void hashesTheSameContentAlikeHoweverItIsOrdered() {
        Entry one = fixture.entry(stop, "visit.note", "{'line':'n','text':'a','x':{'b':1,'a':2}}");
        Entry other = new Entry(
                one.id(),
                one.kind(),
                one.subject(),
                one.device(),
                one.sequence(),
                one.deviceTime(),
                Duration.ZERO,
                one.base(),
                fixture.entry(stop, "visit.note", "{'x':{'a':2,'b':1},'text':'a','line':'n'}")
                        .body(),
                one.author());
        assertThat(CanonicalEntry.of(one).hash())
                .isEqualTo(CanonicalEntry.of(other).hash());
        assertThat(CanonicalEntry.of(one).text()).contains("\"x\":{\"a\":2");
    }

    private void answerDeparture() {
        for (DepartureLine line : DepartureLine.values()) {
            take("visit.departure", "{'line':'%s','answer':'YES'}".formatted(line));
        }
    }

    private EntryAnswer take(String kind, String body) {
        return inbox.take(fixture.entry(stop, kind, body));
    }

    private VisitView view() {
        return visits.require(VisitId.of(stop.visit()));
    }

    private VisitView.SystemWork work() {
        return view().systems().getFirst();
    }

    private int count(String table, UUID id) {
        return jdbc.sql("select count(*) from " + table + " where id = :id")
                .param("id", id)
                .query(Integer.class)
                .single();
    }

    private interface Sending {

        EntryAnswer send(int number);
    }

    private static List<EntryAnswer> atOnce(int copies, Sending sending) throws Exception {
        try (var threads = Executors.newFixedThreadPool(copies)) {
            List<Callable<EntryAnswer>> calls = IntStream.range(0, copies)
                    .mapToObj(number -> (Callable<EntryAnswer>) () -> sending.send(number))
                    .toList();
            List<Future<EntryAnswer>> answers = threads.invokeAll(calls);
            List<EntryAnswer> found = new ArrayList<>();
            for (Future<EntryAnswer> answer : answers) {
                found.add(answer.get());
            }
            return found;
        }
    }
}
