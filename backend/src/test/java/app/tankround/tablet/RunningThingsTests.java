package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.followups.Urgency;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.visits.RunningThing;
import app.tankround.visits.RunningWatch;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import app.tankround.visits.VisitView.DepartureLine;
import app.tankround.visits.VisitView.RunningState;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryAnswer.Status;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.MessageSource;

/** What is switched off or opened for a while: how it ends, and who is told where it does not. */
@SpringBootTest
@IntegrationTest
class RunningThingsTests {

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private VisitService visits;

    @Autowired
    private DayBundle bundles;

    @Autowired
    private Followups followups;

    @Autowired
    private RunningWatch watch;

    @Autowired
    private TestPeople people;

    @Autowired
    private MessageSource messages;

    @Autowired
    private TestClock clock;

    private VisitFixture.Stop stop;

    @BeforeEach
    void startVisit() {
        stop = fixture.onlyStop();
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()), null);
    }

    @ParameterizedTest
    @EnumSource(RunningThing.class)
    void isAskedBeforeLeavingUntilItIsEnded(RunningThing thing) {
        String running = said(thing, "RUNNING");
        assertThat(say(running, null).status()).isEqualTo(Status.APPLIED);
        answerDeparture();

        EntryAnswer refused = take("visit.finish", "{}", null);
        assertThat(refused.status()).isEqualTo(Status.REFUSED);
        assertThat(refused.code()).isEqualTo("visits.running-open");
        assertThat(String.valueOf(refused.args().get("words")))
                .contains(messages.getMessage("visits.running." + thing, null, Locale.ENGLISH));

        say(said(thing, "ENDED"), running);
        assertThat(take("visit.finish", "{}", null).status()).isEqualTo(Status.APPLIED);
        assertThat(matters()).isEmpty();
    }

    @Test
    void standsInTheDayOfEverybodyWhoLendsAHandWithTheTimeByTheServersClock() {
        say(said(RunningThing.RETURN_PUMP_OFF, "RUNNING"), null);
        Map<String, Object> bundle = bundles.of(
                people.person(Role.OWNER),
                LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC),
                Optional.of(VisitId.of(stop.visit())),
                Optional.empty(),
                Locale.ENGLISH);
        assertThat(bundle.get("visits"))
                .asInstanceOf(InstanceOfAssertFactories.LIST)
                .first()
                .extracting("running")
                .isEqualTo(Map.of(
                        "running/" + stop.system() + "/RETURN_PUMP_OFF",
                        Map.of(
                                "since",
                                "2026-03-02T09:00:00Z",
                                "system",
                                stop.system().toString(),
                                "thing",
                                "RETURN_PUMP_OFF",
                                "state",
                                "RUNNING")));
    }

    @Test
    void hasRunSinceItWasBegunHoweverOftenTwoPeopleSaySo() {
        String running = said(RunningThing.WATER_RUNNING, "RUNNING");
        say(running, null);
        clock.advance(Duration.ofMinutes(4));
        assertThat(say(running, null).status()).isEqualTo(Status.APPLIED);
        assertThat(view().running())
                .singleElement()
                .satisfies(each -> assertThat(each.since()).isEqualTo(TestClock.START));

        say(said(RunningThing.WATER_RUNNING, "ENDED"), running);
        clock.advance(Duration.ofMinutes(1));
        say(running, said(RunningThing.WATER_RUNNING, "ENDED"));
        assertThat(view().running())
                .singleElement()
                .satisfies(each -> assertThat(each.since()).isEqualTo(TestClock.START.plus(Duration.ofMinutes(5))));
    }

    /** The times are those of {@link RunningThing}; common practice, no source. */
    @ParameterizedTest
    @CsvSource({"WATER_RUNNING, 20", "RETURN_PUMP_OFF, 60", "HEATER_OFF, 120", "SKIMMER_OFF, 180", "PUMPS_PAUSED, 60"})
    void alarmsAtTheOfficeOnceItTakesTooLong(RunningThing thing, long limit) {
        String running = said(thing, "RUNNING");
        say(running, null);
        clock.advance(Duration.ofMinutes(limit));
        watch.look();
        assertThat(matters()).isEmpty();

        clock.advance(Duration.ofMinutes(1));
        watch.look();
        assertThat(matters()).singleElement().satisfies(matter -> {
            assertThat(matter.urgency()).isEqualTo(Urgency.NOW);
            assertThat(matter.code()).isEqualTo("visits.followup.running.TOO_LONG." + thing);
            assertThat(sentence(matter))
                    .contains("Dining room")
                    .contains("Bellwether")
                    .contains("9:00");
        });

        say(said(thing, "ENDED"), running);
        assertThat(matters()).isEmpty();
    }

    @Test
    void isNotRaisedAgainOnceSomebodyHasSettledIt() {
        say(said(RunningThing.HEATER_OFF, "RUNNING"), null);
        clock.advance(Duration.ofHours(3));
        watch.look();
        followups.settle(matters().getFirst().id(), "The client switched it on", Optional.empty());
        clock.advance(Duration.ofHours(1));
        watch.look();
        assertThat(matters()).isEmpty();
    }

    @Test
    void alarmsAtTheOfficeWhereTheVisitWasFinishedMeanwhileByAnotherDevice() {
        answerDeparture();
        take("visit.finish", "{}", null);
        // A device that was out of reach.
        say(said(RunningThing.RETURN_PUMP_OFF, "RUNNING"), null);
        watch.look();
        assertThat(matters()).singleElement().satisfies(matter -> {
            assertThat(matter.code()).isEqualTo("visits.followup.running.LEFT_BEHIND.RETURN_PUMP_OFF");
            assertThat(matter.urgency()).isEqualTo(Urgency.NOW);
        });
    }

    /** Nobody finished the visit; whoever was there is at another site. */
    @Test
    void alarmsAtTheOfficeWhereEverybodyHasBegunAVisitElsewhere() {
        VisitFixture.Stop there = stop;
        say(said(RunningThing.RETURN_PUMP_OFF, "RUNNING"), null);
        clock.advance(Duration.ofMinutes(5));
        watch.look();
        assertThat(matters()).isEmpty();

        VisitFixture.Stop elsewhere = fixture.stop();
        stop = elsewhere;
        take("visit.start", "{'stop':'%s'}".formatted(elsewhere.stop()), null);
        stop = there;
        watch.look();
        assertThat(matters())
                .extracting(FollowupView::code)
                .containsExactly("visits.followup.running.LEFT_BEHIND.RETURN_PUMP_OFF");
    }

    /** Whoever wrote there last after that has come back. */
    @Test
    void isNotLeftBehindWhereSomebodyIsStillThere() {
        VisitFixture.Stop there = stop;
        say(said(RunningThing.RETURN_PUMP_OFF, "RUNNING"), null);
        clock.advance(Duration.ofMinutes(5));
        stop = fixture.stop();
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()), null);
        clock.advance(Duration.ofMinutes(5));
        stop = there;
        take("visit.note", "{'line':'n1','text':'Back again'}", null);
        watch.look();
        assertThat(matters()).isEmpty();
    }

    @Test
    void mayStayForAReasonAndATimeWhichTheOfficeKeepsAndIsRemindedOf() {
        String running = said(RunningThing.HEATER_OFF, "RUNNING");
        say(running, null);
        assertThat(say(left(RunningThing.HEATER_OFF, "Treatment at room temperature", "2026-03-04T18:00"), running)
                        .status())
                .isEqualTo(Status.APPLIED);
        answerDeparture();
        assertThat(take("visit.finish", "{}", null).status()).isEqualTo(Status.APPLIED);
        assertThat(matters()).singleElement().satisfies(matter -> {
            assertThat(matter.urgency()).isEqualTo(Urgency.SOON);
            assertThat(sentence(matter))
                    .contains("Treatment at room temperature")
                    .contains("4 Mar 2026")
                    .containsPattern("by (Test )?technician: Treatment");
        });

        clock.set(Instant.parse("2026-03-04T17:59:00Z"));
        watch.look();
        assertThat(matters()).extracting(FollowupView::urgency).containsExactly(Urgency.SOON);

        clock.advance(Duration.ofMinutes(1));
        watch.look();
        assertThat(matters()).singleElement().satisfies(matter -> {
            assertThat(matter.urgency()).isEqualTo(Urgency.NOW);
            assertThat(matter.code()).isEqualTo("visits.followup.running.TIME_IS_UP.HEATER_OFF");
            assertThat(sentence(matter)).contains("Treatment at room temperature");
        });
    }

    @ParameterizedTest
    @CsvSource({
        "'', 2026-03-04T18:00, because",
        "x, 2026-03-04T18:00, because",
        "The treatment goes on, '', until",
        "The treatment goes on, tomorrow, until",
        "The treatment goes on, 2026-03-02T09:00, until",
        "The treatment goes on, 2026-04-02T09:01, until"
    })
    void refusesToLeaveItWithoutReasonOrTimeAtTheField(String because, String until, String field) {
        String running = said(RunningThing.SKIMMER_OFF, "RUNNING");
        say(running, null);
        EntryAnswer answer = say(left(RunningThing.SKIMMER_OFF, because, until), running);
        assertThat(answer.status()).isEqualTo(Status.REFUSED);
        assertThat(answer.args().get("field")).isEqualTo(field);
        assertThat(view().stillRunning()).hasSize(1);
        assertThat(matters()).isEmpty();
    }

    @Test
    void keepsBothWhereOneEndsWhatAnotherHasLeftSo() {
        String running = said(RunningThing.VALVE_TURNED, "RUNNING");
        say(running, null);
        say(left(RunningThing.VALVE_TURNED, "Fallow tank stays apart", "2026-03-10T12:00"), running);
        assertThat(say(said(RunningThing.VALVE_TURNED, "ENDED"), running).status())
                .isEqualTo(Status.CONFLICT);
        answerDeparture();
        assertThat(take("visit.finish", "{}", null).code()).isEqualTo("visits.conflict-open");
        assertThat(view().running())
                .singleElement()
                .extracting(VisitView.Running::state)
                .isEqualTo(RunningState.LEFT);
    }

    @Test
    void looksLastAtEveryPumpAtTheLevelAndAtTheFloor() {
        assertThat(view().openDeparture())
                .contains(DepartureLine.PUMPS_FLOW, DepartureLine.LEVEL_AT_MARK, DepartureLine.FLOOR_DRY)
                .doesNotContain(DepartureLine.RETURN_PUMP_RUNS);
        // A page of before the question was widened may still send its answer.
        take("visit.departure", "{'line':'RETURN_PUMP_RUNS','answer':'YES'}", null);
        assertThat(view().departure())
                .filteredOn(line -> line.line() == DepartureLine.RETURN_PUMP_RUNS)
                .hasSize(1);
    }

    private String said(RunningThing thing, String state) {
        return "{'system':'%s','thing':'%s','state':'%s'}".formatted(stop.system(), thing, state);
    }

    private String left(RunningThing thing, String because, String until) {
        return "{'system':'%s','thing':'%s','state':'LEFT','because':'%s','until':'%s'}"
                .formatted(stop.system(), thing, because, until);
    }

    private EntryAnswer say(String body, @Nullable String base) {
        return take("visit.running", body, base);
    }

    private EntryAnswer take(String kind, String body, @Nullable String base) {
        Entry entry = fixture.entry(stop, kind, body, base);
        return inbox.take(new Entry(
                entry.id(),
                entry.kind(),
                entry.subject(),
                entry.device(),
                entry.sequence(),
                clock.instant().atOffset(ZoneOffset.UTC),
                Duration.ZERO,
                entry.base(),
                entry.body(),
                entry.author()));
    }

    private void answerDeparture() {
        for (DepartureLine line : view().openDeparture()) {
            take("visit.departure", "{'line':'%s','answer':'YES'}".formatted(line), null);
        }
    }

    private VisitView view() {
        return visits.require(VisitId.of(stop.visit()));
    }

    /** What the office is told of this stop's system. */
    private List<FollowupView> matters() {
        return followups.open().stream()
                .filter(matter -> matter.subjectId().equals(stop.system().value()))
                .filter(matter -> matter.code().startsWith("visits.followup.running"))
                .toList();
    }

    private String sentence(FollowupView matter) {
        return messages.getMessage(matter.code(), matter.args().toArray(), Locale.UK);
    }
}
