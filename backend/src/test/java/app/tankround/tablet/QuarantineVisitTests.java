package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.Role;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.followups.Urgency;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.NewLivestock;
import app.tankround.tanks.QuarantineService;
import app.tankround.tanks.ReleaseCheck;
import app.tankround.tanks.ReleaseHindrances.Hindrance;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.SelectOption;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.time.Duration;
import java.time.LocalDate;
import java.util.Date;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A quarantine from its clock to its end, by what visits tell of it. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class QuarantineVisitTests {

    private static final Set<ReleaseCheck> ALL = EnumSet.allOf(ReleaseCheck.class);

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private QuarantineService quarantine;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private Followups followups;

    @Autowired
    private TestPeople people;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @LocalServerPort
    private int port;

    private VisitFixture.Stop stop;

    @BeforeEach
    void prepare() {
        stop = fixture.stop();
    }

    @AfterEach
    void reset() {
        clock.set(TestClock.START);
        jdbc.sql("delete from quarantine_period").update();
    }

    private void inQuarantineFor(int days) {
        jdbc.sql("update water_system set infection_class = 'QUARANTINE', class_since = :since where id = :id")
                .param("since", VisitFixture.TODAY.minusDays(days))
                .param("id", stop.system().value())
                .update();
    }

    private LivestockId put(String name, int daysAgo) {
        LivestockId id = LivestockId.of(UUID.randomUUID());
        systems.addLivestock(new NewLivestock(
                id,
                stop.system(),
                systems.nextLivestockCode(),
                name,
                null,
                2,
                false,
                VisitFixture.TODAY.minusDays(daysAgo)));
        return id;
    }

    private WaterSystemView system() {
        return systems.require(stop.system());
    }

    private QuarantineService.State state() {
        return quarantine.of(system(), VisitFixture.TODAY).orElseThrow();
    }

    private EntryAnswer take(String kind, String body) {
        return inbox.take(fixture.entry(stop, kind, body));
    }

    private void begin() {
        assertThat(take("visit.start", "{'stop':'%s'}".formatted(stop.stop())).status())
                .isEqualTo(EntryAnswer.Status.APPLIED);
    }

    private void seen(String more) {
        assertThat(take("visit.watch", "{'system':'%s'%s}".formatted(stop.system(), more))
                        .status())
                .isEqualTo(EntryAnswer.Status.APPLIED);
    }

    private void release(Set<ReleaseCheck> checks) {
        quarantine.release(stop.system(), system().version(), checks, "All well");
    }

    private String refused(Set<ReleaseCheck> checks) {
        String[] code = new String[1];
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> release(checks))
                .satisfies(refusal -> code[0] = refusal.code());
        assertThat(system().infectionClass()).isEqualTo(InfectionClass.QUARANTINE);
        return code[0];
    }

    /** 30 days: Hadfield and Clayton 2011, J. Zoo Wildl. Med. 42(4). Other days by kind are the office's. */
    @Test
    void lastsAsLongAsTheAnimalsInItNeed() {
        inQuarantineFor(10);
        put("Clownfish", 10);
        assertThat(state().days()).isEqualTo(30);
        assertThat(state().day()).isEqualTo(11);
        quarantine.save(new QuarantineService.Period(UUID.randomUUID(), "Seahorse", 45, "Agreed with the vet", 0));
        quarantine.save(new QuarantineService.Period(UUID.randomUUID(), "snail", 14, "Agreed with the vet", 0));
        assertThat(state().days()).isEqualTo(30);
        put("Turbo snails", 10);
        assertThat(state().days()).as("the fish stay as long as before").isEqualTo(30);
        put("Yellow seahorses", 10);
        assertThat(state().days()).isEqualTo(45);
        assertThat(state().over()).isEqualTo(VisitFixture.TODAY.plusDays(35));
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> quarantine.save(
                        new QuarantineService.Period(UUID.randomUUID(), "seahorse", 20, "Again and again", 0)))
                .satisfies(refusal -> assertThat(refusal.code()).isEqualTo("tanks.quarantine.kind-taken"));
    }

    /** Common practice, no source, for the restart. */
    @Test
    void countsAnewForAllWhenAnAnimalGoesInAtAVisit() {
        inQuarantineFor(25);
        put("Clownfish", 25);
        begin();
        take(
                "visit.livestock",
                "{'system':'%s','line':'l1','change':'NEW','count':'1','name':'Tang'}".formatted(stop.system()));
        assertThat(state().day()).isEqualTo(1);
    }

    @Test
    void endsOnlyOnItsPageWhenItsDaysAreOverNothingSpeaksAgainstItAndEveryCheckIsDone() {
        inQuarantineFor(29);
        put("Clownfish", 29);
        begin();
        seen(",'eating':'ALL','breathing':'CALM'");
        assertThat(refused(ALL)).isEqualTo("tanks.quarantine.days-left");
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> systems.changeInfectionClass(
                        stop.system(), system().version(), InfectionClass.HEALTHY, VisitFixture.TODAY, "Let them out"))
                .satisfies(refusal -> assertThat(refusal.code()).isEqualTo("tanks.quarantine.release-needed"));
        inQuarantineFor(30);
        Set<ReleaseCheck> some = EnumSet.complementOf(EnumSet.of(ReleaseCheck.VETERINARIAN));
        assertThat(refused(some)).isEqualTo("tanks.quarantine.checks-missing");
        release(ALL);
        assertThat(system().infectionClass()).isEqualTo(InfectionClass.HEALTHY);
        assertThat(system().classSince()).isEqualTo(VisitFixture.TODAY);
    }

    @Test
    void isNotLeftByWayOfATreatmentEither() {
        inQuarantineFor(40);
        put("Clownfish", 40);
        become(InfectionClass.TREATMENT);

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> become(InfectionClass.HEALTHY))
                .satisfies(refusal -> {
                    assertThat(refusal.code()).isEqualTo("tanks.quarantine.unfinished");
                    assertThat(refusal.field()).isEqualTo("infectionClass");
                });
        become(InfectionClass.SUSPECTED);
        assertThatExceptionOfType(FieldRefusal.class).isThrownBy(() -> become(InfectionClass.NEW));
        assertThat(system().infectionClass()).isEqualTo(InfectionClass.SUSPECTED);

        become(InfectionClass.QUARANTINE);
        inQuarantineFor(30);
        begin();
        seen(",'eating':'ALL','breathing':'CALM'");
        release(ALL);
        assertThat(system().infectionClass()).isEqualTo(InfectionClass.HEALTHY);
        // What falls ill later has nothing to do with it.
        become(InfectionClass.TREATMENT);
        become(InfectionClass.HEALTHY);
        assertThat(system().infectionClass()).isEqualTo(InfectionClass.HEALTHY);
    }

    private void become(InfectionClass wanted) {
        systems.changeInfectionClass(stop.system(), system().version(), wanted, VisitFixture.TODAY, null);
    }

    /** At the depot no visit goes. */
    @Test
    void isLookedAtAndFedWhereNoVisitGoes() {
        inQuarantineFor(40);
        put("Clownfish", 2);
        try (TestBrowser browser = TestBrowser.open()) {
            BrowserContext tablet = browser.person(port, 820, 1180);
            Page page = tablet.newPage();
            page.navigate(people.signInPath(Role.TECHNICIAN));
            String quarantinePage = "/systems/" + stop.system() + "/quarantine";
            page.navigate(quarantinePage);

            page.getByText("Write down a look").click();
            page.getByLabel("Breathing").selectOption("FAST");
            page.getByLabel("Signs").fill("hides");
            save(page, "Write down a look");
            assertThat(page.locator(".is-wrong")).containsText("Choose one");
            assertThat(page.getByLabel("Signs")).hasValue("hides");
            assertThat(matters("visits.followup.breathing")).isEmpty();
            page.getByLabel("Eating").selectOption("SOME");
            save(page, "Write down a look");
            PersonAtBrowser.sees(page, "some eat", "fast", "hides");
            assertThat(matters("visits.followup.breathing")).hasSize(1);

            page.getByText("Write down what was offered").click();
            page.getByLabel("Animals").selectOption(new SelectOption().setLabel("Clownfish"));
            page.getByLabel("Offered").selectOption("LIVE_BRINE");
            page.getByLabel("What became of it").selectOption("EATEN");
            save(page, "Write down what was offered");
            PersonAtBrowser.sees(page, "Eats; last 0 hours ago");
            PersonAtBrowser.assertAccessible(page);
        }
        assertThat(quarantine.hindrances(system()))
                .extracting(Hindrance::code)
                .contains("visits.release.signs", "visits.release.not-eating")
                .doesNotContain("visits.release.not-watched");
    }

    private static void save(Page page, String form) {
        page.locator("details", new Page.LocatorOptions().setHasText(form))
                .getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Save"))
                .click();
    }

    @Test
    void endsNotWhileNobodyLooksSignsAreSeenOrAnimalsDoNotEat() {
        inQuarantineFor(40);
        LivestockId fish = put("Clownfish", 40);
        assertThat(refused(ALL)).isEqualTo("visits.release.not-watched");
        begin();
        seen(",'eating':'SOME','breathing':'CALM','signs':'white spots on two'");
        assertThat(quarantine.hindrances(system()))
                .extracting(Hindrance::code)
                .contains("visits.release.signs", "visits.release.not-eating");
        assertThat(refused(ALL)).isEqualTo("visits.release.signs");
        assertThat(matters("visits.followup.signs"))
                .singleElement()
                .satisfies(matter -> assertThat(matter.urgency()).isEqualTo(Urgency.TODAY));
        inbox.take(fixture.entry(
                stop,
                "visit.watch",
                "{'system':'%s','eating':'ALL','breathing':'FAST'}".formatted(stop.system()),
                "{'system':'%s','eating':'SOME','breathing':'CALM','signs':'white spots on two'}"
                        .formatted(stop.system())));
        assertThat(matters("visits.followup.signs")).as("it was corrected").isEmpty();
        assertThat(matters("visits.followup.breathing"))
                .singleElement()
                .satisfies(matter -> assertThat(matter.urgency()).isEqualTo(Urgency.NOW));
        take(
                "visit.food",
                "{'system':'%s','line':'f1','livestock':'%s','offer':'LIVE_BRINE','outcome':'REFUSED'}"
                        .formatted(stop.system(), fish));
        assertThat(quarantine.hindrances(system()))
                .extracting(Hindrance::code)
                .contains("visits.release.signs", "visits.release.does-not-eat");
    }

    @Test
    void tellsTheOfficeOnceOfAnimalsThatDoNotEatAndNoMoreWhenTheyDo() {
        inQuarantineFor(4);
        LivestockId fish = put("Clownfish", 4);
        begin();
        String offered = "{'system':'%s','line':'%s','livestock':'%s','offer':'LIVE_BRINE','outcome':'%s'}";
        EntryAnswer first = take("visit.food", offered.formatted(stop.system(), "f1", fish, "REFUSED"));
        assertThat(first.code()).isEqualTo("visits.food.WORRY");
        take("visit.food", offered.formatted(stop.system(), "f2", fish, "TASTED"));
        assertThat(matters("visits.followup.not-eating")).hasSize(1);
        clock.advance(Duration.ofHours(1));
        assertThat(take("visit.food", offered.formatted(stop.system(), "f3", fish, "EATEN"))
                        .code())
                .isEqualTo("visits.food.EATS");
        assertThat(matters("visits.followup.not-eating")).isEmpty();
    }

    @Test
    void keepsADisplayWithoutFishForTheWeeksThatWereAgreed() {
        inQuarantineFor(40);
        put("Clownfish", 40);
        begin();
        seen(",'eating':'ALL','breathing':'CALM'");
        WaterSystemId display =
                WaterSystemId.of(new TestBusiness(jdbc).system(stop.site().value(), "Hall", "HEALTHY"));
        LocalDate since = VisitFixture.TODAY.minusDays(20);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> quarantine.stateDisplay(
                        stop.system(), Optional.of(display), Optional.of(since), Optional.empty()))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("fallowDays"));
        quarantine.stateDisplay(stop.system(), Optional.of(display), Optional.of(since), Optional.of(42));
        QuarantineService.Display stated = quarantine.display(stop.system()).orElseThrow();
        assertThat(stated.weeksGone(VisitFixture.TODAY)).isEqualTo(2);
        assertThat(stated.weeks()).isEqualTo(6);
        assertThat(refused(ALL)).isEqualTo("tanks.quarantine.fallow");
        quarantine.stateDisplay(stop.system(), Optional.of(display), Optional.of(since), Optional.of(20));
        release(ALL);
        assertThat(quarantine.display(stop.system())).isEmpty();
    }

    private List<FollowupView> matters(String code) {
        return followups.open().stream()
                .filter(matter -> matter.code().equals(code)
                        && matter.subjectId().equals(stop.system().value()))
                .toList();
    }

    @Test
    void showsClockToolsAndFoodAtTheTankAndTheDaysOnItsPageWhichOnlyTheOfficeEnds() {
        inQuarantineFor(33);
        put("Clownfish", 33);
        try (TestBrowser browser = TestBrowser.open();
                BrowserContext technician = context(browser);
                BrowserContext office = context(browser)) {
            Page page = technician.newPage();
            page.navigate(address(people.signInPath(Role.TECHNICIAN)));
            page.navigate(address("/visits/for-stop/" + stop.stop()));
            PersonAtBrowser.press(page, "Start the visit");
            page.waitForURL("**/visits/" + stop.visit());
            Locator animals = page.locator("[data-apart]");
            assertThat(animals).containsText("The days were over on");
            assertThat(animals).containsText("No net, bucket or siphon of its own is written down");
            // Nobody offered anything in these days that anybody wrote down, which is no proof of hunger.
            assertThat(page.locator("[data-food]"))
                    .containsText("Here for 32 days, and nobody has written down yet that it eats");
            page.route("**/api/entries", route -> route.abort());
            animals.getByLabel("All eat").check();
            assertThat(page.locator("#sync")).containsText("The animals today");
            animals.getByLabel("Calmly").check();
            assertThat(animals).containsText("saved on this device");
            page.locator("[data-food]")
                    .getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Food offered to Clownfish"))
                    .click();
            page.locator("[data-food]").getByLabel("Eaten").check();
            assertThat(page.locator("[data-food]")).containsText("saved on this device");
            page.unroute("**/api/entries");
            page.reload();
            PersonAtBrowser.allIsSaved(page);
            assertThat(page.locator("[data-food]")).containsText("Eats");
            PersonAtBrowser.assertAccessible(page);
            page.navigate(address("/systems/" + stop.system() + "/quarantine"));
            PersonAtBrowser.sees(page, "all eat", "calm", "Only the office ends a quarantine");
            assertThat(page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("End the quarantine")))
                    .hasCount(0);

            Page desk = office.newPage();
            desk.navigate(address(people.signInPath(Role.OFFICE)));
            desk.navigate(address("/quarantines"));
            PersonAtBrowser.sees(desk, "Dining room", "Days by kind of animal");
            PersonAtBrowser.assertAccessible(desk);
            desk.navigate(address("/systems/" + stop.system() + "/quarantine"));
            PersonAtBrowser.assertAccessible(desk);
            PersonAtBrowser.press(desk, "End the quarantine");
            PersonAtBrowser.sees(desk, "5 checks are not ticked");
            desk.locator("[name=checks]").all().forEach(Locator::check);
            PersonAtBrowser.press(desk, "End the quarantine");
            assertThat(desk.locator("body")).containsText("The quarantine has ended");
            assertThat(system().infectionClass()).isEqualTo(InfectionClass.HEALTHY);
        }
    }

    private BrowserContext context(TestBrowser browser) {
        BrowserContext context = browser.browser()
                .newContext(new Browser.NewContextOptions()
                        .setViewportSize(820, 1180)
                        .setServiceWorkers(ServiceWorkerPolicy.BLOCK));
        context.clock().setFixedTime(Date.from(clock.instant()));
        return context;
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }
}
