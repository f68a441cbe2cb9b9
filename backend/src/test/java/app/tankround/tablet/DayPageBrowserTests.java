package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.BusinessProfile;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.StopView;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Date;
import java.util.List;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** The day of a technician on a phone: where to go next, and when the rest is reached once a stop took longer. */
class DayPageBrowserTests extends AtATablet {

    private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm");
    private static final Duration LATE = Duration.ofMinutes(40);

    @Autowired
    private RoundService rounds;

    @Autowired
    private BusinessProfile business;

    @Override
    BrowserContext newTablet() {
        return browser.keepingPages("http://localhost:" + port, 360, 740);
    }

    /** The third site closes half an hour after work there was to begin, so that forty minutes are nine and a part too many. */
    @Test
    void worksTheRestOutAnewWithoutASignalAndSaysWhereItComesTooLate() {
        rounds.delete(stop.round(), rounds.require(stop.round()).version());
        List<VisitFixture.Stop> day = fixture.stops(4);
        stop = day.getFirst();
        List<StopView> planned = rounds.require(day.getFirst().round()).stops();
        LocalTime closes =
                planned.get(2).starts().truncatedTo(ChronoUnit.MINUTES).plusMinutes(31);
        jdbc.sql(
                        "update site set attended_from = '06:00', attended_until = :until, access_notes = :notes where id = :site")
                .param("until", closes)
                .param("notes", "Bell at the side door")
                .param("site", planned.get(2).siteId().value())
                .update();
        LocalTime told = planned.get(1).starts().truncatedTo(ChronoUnit.MINUTES);
        jdbc.sql("""
                        insert into arrival_promise (
                            planned_visit_id, service_date, from_time, until_time, confidence, told_at, told_by)
                        values (:visit, :day, :from, :until, 80, now(), :by)
                        """)
                .param("visit", planned.get(1).plannedVisits().getFirst().value())
                .param("day", VisitFixture.TODAY)
                .param("from", told.minusMinutes(10))
                .param("until", told.plusMinutes(30))
                .param("by", stop.technician().value())
                .update();
        it(at(rounds.require(day.getFirst().round()).leavesAt()));
        takeTheDayAlong();
        for (StopView each : planned) {
            assertThat(stopOf(each)).containsText(times(each, Duration.ZERO));
            assertThat(stopOf(each)).not().containsText("planned");
        }
        assertThat(next(day)).containsText("Next stop 1 of 4");
        assertThat(next(day)).containsText(planned.getFirst().siteName());

        tablet.setOffline(true);
        it(at(planned.getFirst().starts()));
        page.navigate("/day");
        next(day).getByText("Start this visit").click();
        PersonAtBrowser.press(page, "Start the visit");
        assertThat(page.locator("#sync")).containsText("1 entry");
        page.navigate("/day");
        assertThat(next(day))
                .containsText("Begun " + HOUR.format(planned.getFirst().starts()));
        it(at(planned.getFirst().departs()).plus(LATE));
        page.navigate("/day");
        next(day).getByText("Check before leaving and finish").click();
        PersonAtBrowser.answersYes(page);
        PersonAtBrowser.press(page, "Nobody was there");
        PersonAtBrowser.press(page, "Finish the visit");
        assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");

        page.navigate("/day");
        assertThat(stopOf(planned.getFirst()))
                .containsText(
                        "Finished " + HOUR.format(planned.getFirst().departs().plus(LATE)));
        for (StopView each : planned.subList(1, 4)) {
            assertThat(stopOf(each)).containsText(times(each, LATE));
            assertThat(stopOf(each)).containsText("planned " + times(each, Duration.ZERO));
        }
        assertThat(stopOf(planned.get(2)))
                .containsText("Too late by 10 min: work has to begin by " + HOUR.format(closes));
        assertThat(page.getByText("Too late by")).hasCount(1);
        String promised = "The client was told %s to %s, which cannot be kept."
                .formatted(HOUR.format(told.minusMinutes(10)), HOUR.format(told.plusMinutes(30)));
        assertThat(stopOf(planned.get(1))).containsText(promised);
        assertThat(next(day)).containsText(promised);
        assertThat(page.locator(".day-stops").getByText("which cannot be kept")).hasCount(1);
        assertThat(next(day)).containsText("Next stop 2 of 4");
        PersonAtBrowser.assertAccessible(page);
        page.screenshot(new Page.ScreenshotOptions()
                .setPath(Path.of("target", "day-360.png"))
                .setFullPage(true));

        // Who works faster is in time again.
        it(at(planned.get(1).starts()).plus(LATE));
        page.navigate("/visits/" + day.get(1).visit());
        PersonAtBrowser.press(page, "Start the visit");
        it(at(planned.get(1).departs()));
        PersonAtBrowser.answersYes(page);
        PersonAtBrowser.press(page, "Finish the visit");
        assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");
        page.navigate("/day");
        assertThat(stopOf(planned.get(2))).containsText(times(planned.get(2), Duration.ZERO));
        assertThat(page.getByText("Too late by")).hasCount(0);
        assertThat(next(day)).containsText("Bell at the side door");
        page.setViewportSize(820, 1180);
        page.screenshot(new Page.ScreenshotOptions()
                .setPath(Path.of("target", "day-820.png"))
                .setFullPage(true));
    }

    /** Who has two rounds goes to one place at a time. */
    @Test
    void showsOneNextStopHoweverManyRoundsTheDayHas() {
        VisitFixture.Stop further = fixture.stop();
        it(TestClock.START);
        takeTheDayAlong();
        assertThat(page.locator("li[data-stop]")).hasCount(2);
        assertThat(page.locator(".next-stop")).hasCount(1);

        for (VisitFixture.Stop each : List.of(stop, further)) {
            page.navigate(
                    page.locator(".next-stop").getByText("Start this visit").getAttribute("href"));
            PersonAtBrowser.press(page, "Start the visit");
            PersonAtBrowser.answersYes(page);
            PersonAtBrowser.press(page, "Finish the visit");
            assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");
            PersonAtBrowser.allIsSaved(page);
            page.navigate("/day");
            assertThat(page.locator(".day-stops").getByText("Finished")).hasCount(each == stop ? 1 : 2);
        }
        assertThat(page.locator(".next-stop")).hasCount(0);
    }

    /** The break is where the office has it, and where nothing has happened yet every time is the planned one. */
    @Test
    void leavesTheCrewItsBreakWhereItWorksTheTimesOut() {
        List<VisitFixture.Stop> day = fixture.stops(8);
        List<StopView> planned = rounds.require(day.getFirst().round()).stops();
        Assertions.assertThat(rounds.pace(day.getFirst().round()).rest()).isPresent();
        Assertions.assertThat(planned)
                .filteredOn(
                        each -> Duration.between(each.starts(), each.departs()).toMinutes() > 60)
                .as("the stop within which the break falls")
                .isNotEmpty();
        it(at(rounds.require(day.getFirst().round()).leavesAt()).minus(Duration.ofHours(2)));
        takeTheDayAlong();
        for (StopView each : planned) {
            assertThat(stopOf(each)).containsText(times(each, Duration.ZERO));
            assertThat(stopOf(each)).not().containsText("planned");
        }
    }

    /** What lies at the depot is checked there: once, before the van leaves. What is carried can be checked anywhere. */
    @Test
    void asksOnceForTheCheckOfWhatStaysAtTheDepot() {
        fixture.putToolsAway();
        InstrumentId left =
                fixture.tool(InstrumentKind.THERMOMETER, Quantity.TEMPERATURE, MeasurementUnit.DEGREE_CELSIUS, "0.1");
        InstrumentId carried = fixture.tool(InstrumentKind.PH_METER, Quantity.PH, MeasurementUnit.PH_UNIT, "0.01");
        jdbc.sql("update instrument set holder_id = null where id = :left")
                .param("left", left.value())
                .update();
        // Nobody leaves before.
        jdbc.sql("update round set leaves_at = '05:00' where id = :round")
                .param("round", stop.round().value())
                .update();
        it(TestClock.START);
        takeTheDayAlong();
        Locator first = page.locator("[data-checks]");
        assertThat(first).containsText("To be checked before the van leaves");
        assertThat(first.locator(checking(left))).hasCount(1);
        assertThat(first.locator(checking(carried))).hasCount(1);
        page.navigate("/visits/" + stop.visit());
        assertThat(page.locator("#notices").locator(checking(carried))).hasCount(1);
        assertThat(page.locator("#notices").locator(checking(left))).hasCount(0);
        begin("");
        page.navigate("/day");
        assertThat(page.locator("[data-next]")).containsText("Go on with this visit");
        assertThat(first).hasCount(0);
        fixture.putToolsAway();
    }

    private static String checking(InstrumentId instrument) {
        return "a[href^='/instruments/" + instrument + "/checks']";
    }

    private Locator next(List<VisitFixture.Stop> day) {
        return page.locator(
                "section:has(> .section-head a[href='/rounds/" + day.getFirst().round() + "/load']) .next-stop");
    }

    private Locator stopOf(StopView stop) {
        return page.locator("li[data-stop='" + stop.id() + "']");
    }

    private static String times(StopView stop, Duration later) {
        return "%s to %s"
                .formatted(
                        HOUR.format(stop.arrives().plus(later)),
                        HOUR.format(stop.departs().plus(later)));
    }

    private Instant at(LocalTime hour) {
        return VisitFixture.TODAY.atTime(hour).atZone(business.zone()).toInstant();
    }

    /** By the clocks of server and tablet. */
    private void it(Instant is) {
        clock.set(is);
        tablet.clock().setFixedTime(Date.from(is));
    }
}
