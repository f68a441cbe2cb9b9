package app.tankround.tablet;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.NewPerson;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.followups.Urgency;
import app.tankround.network.SecureAddresses;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.visits.CallList;
import app.tankround.visits.LoneWorking;
import app.tankround.visits.StayId;
import app.tankround.visits.StayView;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryAnswer.Status;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpStatus;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.json.JsonMapper;

/** Whoever is alone somewhere, from check-in to check-out, and who is told where nobody checks out. */
@SpringBootTest(properties = {"spring.mail.host=127.0.0.1", "spring.mail.port=9"})
@IntegrationTest
@AutoConfigureMockMvc
@Import(PageTester.class)
class LoneWorkingTests {

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private LoneWorking alone;

    @Autowired
    private CallList callList;

    @Autowired
    private Followups followups;

    @Autowired
    private TestPeople testPeople;

    @Autowired
    private People people;

    @Autowired
    private CurrentPerson currentPerson;

    @Autowired
    private ChangeLog changeLog;

    @Autowired
    private PageTester pages;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private JsonMapper json;

    @Autowired
    private SecureAddresses addresses;

    @Autowired
    private TestClock clock;

    private VisitFixture.Stop stop;
    private final StayId stay = StayId.of(UUID.randomUUID());

    @BeforeEach
    void stop() {
        stop = fixture.stop();
        jdbc.sql("delete from outgoing_mail").update();
    }

    @AfterEach
    void everybodyIsOut() {
        for (StayView in : alone.open()) {
            alone.checkOut(in.id(), clock.instant(), stop.technician());
        }
        callList.change(callList.current().version(), List.of());
    }

    @Test
    void tellsNobodyBeforeTheLatestReturnNorAfterTheCheckOut() {
        name("ada", 10);
        checkIn(60);
        clock.advance(Duration.ofMinutes(59));
        alone.look();
        assertThat(matters()).isEmpty();
        say("alone.check-out", "{}", clock.instant());
        clock.advance(Duration.ofHours(8));
        alone.look();
        assertThat(matters()).isEmpty();
        assertThat(mails()).isEmpty();
        assertThat(alone.require(stay).checkedOutAt()).contains(TestClock.START.plus(Duration.ofMinutes(59)));
    }

    /** The tablet is dead: nothing comes from it any more. Checked in on Monday at 22:30, so all of it is at night. */
    @Test
    void goesFromNamedPersonToNamedPersonAtNightUntilOneAnswers() throws Exception {
        PersonId ada = name("ada", 10, "ben", 20);
        clock.set(Instant.parse("2026-03-02T22:30:00Z"));
        checkIn(60);
        clock.advance(Duration.ofMinutes(60));
        alone.look();
        assertThat(mails()).containsExactly("ada@skerry.example");
        assertThat(matters()).singleElement().satisfies(matter -> {
            assertThat(matter.urgency()).isEqualTo(Urgency.DEADLY);
            assertThat(matter.page()).isEqualTo("/alone/" + stay);
            assertThat(matter.args()).contains("Test technician", "CO2 cellar", "23:30", "Test ada");
        });
        clock.advance(Duration.ofMinutes(9));
        alone.look();
        alone.look();
        assertThat(mails()).hasSize(1);
        clock.advance(Duration.ofMinutes(1));
        alone.look();
        assertThat(mails()).containsExactly("ada@skerry.example", "ben@skerry.example");
        clock.advance(Duration.ofMinutes(19));
        alone.look();
        assertThat(mails()).hasSize(2);
        clock.advance(Duration.ofMinutes(1));
        alone.look();
        assertThat(mails()).containsExactly("ada@skerry.example", "ben@skerry.example", "ada@skerry.example");

        assertThat(currentPerson.actingAs(ada, () -> alone.answer(stay))).isTrue();
        clock.advance(Duration.ofMinutes(14));
        alone.look();
        assertThat(mails()).hasSize(3);
        assertThat(matters())
                .singleElement()
                .satisfies(matter -> assertThat(matter.code()).isEqualTo("visits.followup.alone.answered"));
        assertThat(alone.require(stay).answeredBy()).contains(ada);
    }

    @Test
    void asksWhoeverSeesToItAgainUntilThePersonIsOut() throws Exception {
        PersonId ada = name("ada", 10, "ben", 20);
        checkIn(30);
        clock.advance(Duration.ofMinutes(30));
        alone.look();
        currentPerson.actingAs(ada, () -> alone.answer(stay));
        clock.advance(Duration.ofMinutes(15));
        alone.look();
        assertThat(mails()).containsExactly("ada@skerry.example", "ada@skerry.example");
        assertThat(matters())
                .singleElement()
                .satisfies(matter -> assertThat(matter.code()).isEqualTo("visits.followup.alone.overdue"));
        assertThat(currentPerson.actingAs(ada, () -> alone.answer(stay))).isTrue();
        clock.advance(Duration.ofMinutes(15));
        alone.look();
        // This time she does not answer, and the next is told.
        clock.advance(Duration.ofMinutes(10));
        alone.look();
        assertThat(mails())
                .containsExactly(
                        "ada@skerry.example", "ada@skerry.example", "ada@skerry.example", "ben@skerry.example");
        alone.checkOut(stay, clock.instant(), stop.technician());
        clock.advance(Duration.ofHours(1));
        alone.look();
        assertThat(mails()).hasSize(4);
    }

    /** Whoever reads the mail sits at another machine than the program. */
    @Test
    void namesInTheMailAnAddressThatAnotherDeviceReaches() {
        name("ada", 10);
        checkIn(30);
        clock.advance(Duration.ofMinutes(30));
        alone.look();
        String host = addresses.hosts().getFirst();
        assertThat(jdbc.sql("select body from outgoing_mail")
                        .query(String.class)
                        .single())
                .contains(addresses.of(host, "/alone/" + stay));
    }

    @Test
    void goesOnWhereItWasAfterTheServerWasOff() {
        name("ada", 10, "ben", 20);
        checkIn(30);
        // Off from before the latest return until two hours later: what is due is in the database, not in memory.
        clock.advance(Duration.ofHours(2));
        alone.look();
        assertThat(mails()).containsExactly("ada@skerry.example");
        clock.advance(Duration.ofMinutes(10));
        alone.look();
        assertThat(mails()).containsExactly("ada@skerry.example", "ben@skerry.example");
    }

    @Test
    void tellsTheNextAtOnceWhereWhoeverHadItCannot() throws Exception {
        PersonId ada = name("ada", 10, "ben", 20);
        checkIn(30);
        clock.advance(Duration.ofMinutes(30));
        alone.look();
        currentPerson.actingAs(ada, () -> alone.answer(stay));
        clock.advance(Duration.ofMinutes(2));
        alone.release(stay);
        assertThat(mails()).containsExactly("ada@skerry.example", "ben@skerry.example");
    }

    @Test
    void doesNotTellTheOneWhoIsMissing() {
        callList.change(
                callList.current().version(),
                List.of(
                        line(stop.technician(), "tech@skerry.example", 5),
                        line(person("ben"), "ben@skerry.example", 5)));
        checkIn(30);
        clock.advance(Duration.ofMinutes(30));
        alone.look();
        assertThat(mails()).containsExactly("ben@skerry.example");
    }

    @Test
    void tellsTheOwnersOnTheFirstPageWhereNobodyIsNamed() {
        PersonId owner = testPeople.person(Role.OWNER);
        checkIn(30);
        clock.advance(Duration.ofMinutes(30));
        alone.look();
        assertThat(mails()).isEmpty();
        assertThat(alone.require(stay).calls())
                .extracting(StayView.Call::personId)
                .containsExactly(owner);
        assertThat(pages.page(Role.OWNER, "/"))
                .contains("Test technician is alone at")
                .contains("Ring now");
    }

    @Test
    void countsFromWhenItWasSaidHoweverLateItArrivesAndWhateverTheTabletsClock() {
        name("ada", 10);
        Instant said = clock.instant();
        clock.advance(Duration.ofMinutes(45));
        say("alone.check-in", in(30), said);
        assertThat(alone.require(stay).latestReturn()).isEqualTo(said.plus(Duration.ofMinutes(30)));
        alone.look();
        assertThat(mails()).hasSize(1);
    }

    @Test
    void takesLongerWhereSomebodySaysSo() {
        name("ada", 10);
        checkIn(30);
        clock.advance(Duration.ofMinutes(30));
        alone.look();
        assertThat(say("alone.check-in", in(30), clock.instant()).status()).isEqualTo(Status.APPLIED);
        assertThat(matters()).isEmpty();
        clock.advance(Duration.ofMinutes(29));
        alone.look();
        assertThat(mails()).hasSize(1);
        clock.advance(Duration.ofMinutes(1));
        alone.look();
        assertThat(mails()).hasSize(2);
    }

    @Test
    void isCheckedInAndOutByTelephoneThroughTheOffice() {
        name("ada", 10);
        assertThat(pages.post(Role.OFFICE, "/alone/check-in", telephone("30", "CO2 cellar")))
                .hasStatus(HttpStatus.FOUND);
        StayView in = alone.openOf(stop.technician()).getFirst();
        assertThat(in.checkedInBy()).isEqualTo(testPeople.person(Role.OFFICE));
        assertThat(pages.page(Role.OFFICE, "/alone"))
                .contains("Test technician at")
                .contains("CO2 cellar");
        assertThat(pages.post(Role.OFFICE, "/alone/" + in.id() + "/check-out", Map.of()))
                .hasStatus(HttpStatus.FOUND);
        assertThat(alone.open()).isEmpty();

        // What the tablet had kept arrives afterwards: the person is out already, and nobody is alarmed.
        Instant said = clock.instant().minus(Duration.ofMinutes(1));
        say("alone.check-in", in(1), said);
        clock.advance(Duration.ofHours(1));
        alone.look();
        assertThat(mails()).isEmpty();
        assertThat(changeLog.of("alone", in.id().value()))
                .extracting(ChangeLog.Line::action)
                .containsExactlyInAnyOrder("checked-in", "checked-out");
    }

    @ParameterizedTest
    @CsvSource({
        "0, Cellar, minutes",
        "1441, Cellar, minutes",
        "soon, Cellar, minutes",
        "'', Cellar, minutes",
        "30, '', because"
    })
    void refusesATelephoneCheckInAtItsField(String minutes, String because, String field) {
        var answer = pages.post(Role.OFFICE, "/alone/check-in", telephone(minutes, because));
        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), field)).isNotBlank();
        assertThat(alone.open()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"0, minutes", "1441, minutes", "x, minutes"})
    void refusesAnEntryAtItsField(String minutes, String field) {
        EntryAnswer answer = say(
                "alone.check-in",
                "{'site':'%s','minutes':'%s','because':'Cellar'}".formatted(stop.site(), minutes),
                clock.instant());
        assertThat(answer.status()).isEqualTo(Status.REFUSED);
        assertThat(answer.args().get("field")).isEqualTo(field);
        assertThat(alone.open()).isEmpty();
    }

    @Test
    void isAnsweredByAnybodyOfTheStaffButOnlyOnceAndTheListIsTheOwners() {
        checkIn(30);
        clock.advance(Duration.ofMinutes(30));
        alone.look();
        assertThat(pages.post(Role.TECHNICIAN, "/alone/" + stay + "/check-out", Map.of()))
                .hasStatus(HttpStatus.FORBIDDEN);
        assertThat(pages.post(Role.CLIENT, "/alone/" + stay + "/answer", Map.of()))
                .hasStatus(HttpStatus.FORBIDDEN);
        assertThat(pages.page(Role.TECHNICIAN, "/alone/" + stay)).contains("I have it");
        pages.post(Role.TECHNICIAN, "/alone/" + stay + "/answer", Map.of());
        pages.post(Role.OFFICE, "/alone/" + stay + "/answer", Map.of());
        assertThat(alone.require(stay).answeredBy()).contains(testPeople.person(Role.TECHNICIAN));
        assertThat(pages.get(Role.OFFICE, "/alone/people")).hasStatus(HttpStatus.FORBIDDEN);
        assertThat(pages.post(Role.OFFICE, "/alone/people", Map.of())).hasStatus(HttpStatus.FORBIDDEN);
    }

    @Test
    void keepsTheListInItsOrderAndRefusesAtTheField() {
        PersonId ben = person("ben");
        Map<String, String> form = new HashMap<>();
        form.put("version", Integer.toString(callList.current().version()));
        form.put("lines[0].person", ben.toString());
        form.put("lines[0].email", "ben at skerry");
        form.put("lines[0].minutes", "10");
        var refused = pages.post(Role.OWNER, "/alone/people", form);
        assertThat(refusal(body(refused), "lines[0].email")).contains("ben at skerry");
        form.put("lines[0].email", "ben@skerry.example");
        form.put("lines[0].minutes", "0");
        assertThat(refusal(body(pages.post(Role.OWNER, "/alone/people", form)), "lines[0].minutes"))
                .contains("240");
        assertThat(callList.current().lines()).isEmpty();
        form.put("lines[0].minutes", "10");
        assertThat(pages.post(Role.OWNER, "/alone/people", form)).hasStatus(HttpStatus.FOUND);
        assertThat(callList.current().lines())
                .extracting(CallList.Line::personId)
                .containsExactly(ben);
        form.put("lines[0].minutes", "15");
        assertThat(pages.post(Role.OWNER, "/alone/people", form)).hasStatus(HttpStatus.CONFLICT);
        assertThat(pages.page(Role.TECHNICIAN, "/alone")).contains("ben@skerry.example");
    }

    private void checkIn(int minutes) {
        assertThat(say("alone.check-in", in(minutes), clock.instant()).status()).isEqualTo(Status.APPLIED);
    }

    private String in(int minutes) {
        return "{'site':'%s','minutes':'%d','because':'CO2 cellar'}".formatted(stop.site(), minutes);
    }

    private EntryAnswer say(String kind, String body, Instant at) {
        return inbox.take(new Entry(
                Uuids.next(at),
                kind,
                Optional.of(stay.value()),
                "test-device",
                Math.abs(UUID.randomUUID().getMostSignificantBits() >> 12),
                at.atOffset(ZoneOffset.UTC),
                Duration.ZERO,
                Optional.empty(),
                json.readTree(body.replace('\'', '"')),
                stop.technician().value()));
    }

    private Map<String, String> telephone(String minutes, String because) {
        return Map.of(
                "person",
                stop.technician().toString(),
                "site",
                stop.site().toString(),
                "minutes",
                minutes,
                "because",
                because);
    }

    /** Names people with their minutes; answers the first. */
    private PersonId name(Object... namesAndMinutes) {
        List<CallList.Line> lines = new ArrayList<>();
        for (int at = 0; at < namesAndMinutes.length; at += 2) {
            String name = String.valueOf(namesAndMinutes[at]);
            lines.add(line(person(name), name + "@skerry.example", (Integer) namesAndMinutes[at + 1]));
        }
        callList.change(callList.current().version(), lines);
        return lines.getFirst().personId();
    }

    private static CallList.Line line(PersonId person, String email, int minutes) {
        return new CallList.Line(person, email, Optional.empty(), Duration.ofMinutes(minutes));
    }

    private PersonId person(String name) {
        testPeople.person(Role.OWNER);
        return people.findBySignInName(name)
                .map(known -> known.id())
                .orElseGet(() -> people.add(new NewPerson(
                        PersonId.of(UUID.randomUUID()),
                        name,
                        "Test " + name,
                        Role.OFFICE,
                        Locale.forLanguageTag("en-IE"))));
    }

    private List<String> mails() {
        return jdbc.sql("select recipient from outgoing_mail order by queued_at, id")
                .query((row, number) -> Objects.requireNonNull(row.getString("recipient")))
                .list();
    }

    private List<FollowupView> matters() {
        return followups.open().stream()
                .filter(matter -> matter.topic().equals("alone " + stay))
                .toList();
    }
}
