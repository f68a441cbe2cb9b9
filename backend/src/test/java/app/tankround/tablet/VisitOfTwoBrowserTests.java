package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.readings.ReadingView;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitView;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.util.List;
import java.util.UUID;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;

/** A visit that a second person helps with, and one that an emergency call cuts off. */
class VisitOfTwoBrowserTests extends AtATablet {

    @Override
    BrowserContext newTablet() {
        return browser.person(port, 820, 1180);
    }

    @Test
    void takesWhatASecondPersonEntersAtTheSameTime() {
        begin("");
        PersonAtBrowser.write(page, "Temperature", "25.1");
        try (BrowserContext another = newTablet()) {
            Page helper = another.newPage();
            helper.navigate(people.signInPath(Role.OFFICE));
            helper.navigate("/visits/" + stop.visit());
            assertThat(helper.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true)))
                    .hasValue("25.1");
            PersonAtBrowser.write(helper, "Out", "40");
        }
        PersonAtBrowser.write(page, "Salinity", "1.025");
        page.reload();
        assertThat(page.getByLabel("Out", new Page.GetByLabelOptions().setExact(true)))
                .hasValue("40");
        leave();

        VisitView visit = visits.require(VisitId.of(stop.visit()));
        Assertions.assertThat(visit.finished()).isTrue();
        Assertions.assertThat(visit.technicianId()).isEqualTo(stop.technician());
        Assertions.assertThat(jdbc.sql("select distinct author_id from visit_entry where visit_id = :visit")
                        .param("visit", stop.visit())
                        .query(UUID.class)
                        .list())
                .containsExactlyInAnyOrder(
                        people.person(Role.TECHNICIAN).value(),
                        people.person(Role.OFFICE).value());
    }

    @Test
    void isTakenUpAgainAfterAnEmergencyCall() {
        List<VisitFixture.Stop> round = fixture.stops(2);
        stop = round.getFirst();
        begin("");
        PersonAtBrowser.write(page, "Temperature", "25.2");

        stop = round.getLast();
        begin("");
        PersonAtBrowser.write(page, "Temperature", "25.9");
        leave();

        stop = round.getFirst();
        page.navigate("/day");
        page.locator(".day-stops a[href='/visits/" + stop.visit() + "']").click();
        assertThat(page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true)))
                .hasValue("25.2");
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).finished())
                .isFalse();
        PersonAtBrowser.write(page, "Out", "40");
        leave();
        Assertions.assertThat(round)
                .allSatisfy(each -> Assertions.assertThat(
                                visits.require(VisitId.of(each.visit())).finished())
                        .isTrue());
        Assertions.assertThat(readings.byVisit(round.getLast().visit()))
                .extracting(ReadingView::value)
                .map(value -> value.orElseThrow().toPlainString())
                .containsExactly("25.9");
        Assertions.assertThat(temperatures()).containsExactly("25.2");
    }

    private void leave() {
        PersonAtBrowser.answersYes(page);
        PersonAtBrowser.press(page, "Nobody was there");
        PersonAtBrowser.press(page, "Finish the visit");
        assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");
        PersonAtBrowser.allIsSaved(page);
    }
}
