package app.tankround.tablet;

import static app.tankround.testing.PersonAtBrowser.allIsSaved;
import static app.tankround.testing.PersonAtBrowser.field;
import static app.tankround.testing.PersonAtBrowser.type;
import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingView;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.visits.VisitId;
import app.tankround.web.EntryAnswer;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.options.AriaRole;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.UUID;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;

/** What is asked back about a number at the tank, with no signal: what cannot be, and what surprises. */
class AskedBackBrowserTests extends AtATablet {

    @Autowired
    private Bench bench;

    @Autowired
    private EntryInbox inbox;

    @Override
    BrowserContext newTablet() {
        return browser.person(port, 820, 1180);
    }

    @BeforeEach
    void agreeOnMore() {
        fixture.putToolsAway();
        jdbc.sql("""
                        insert into target (water_system, quantity, low, high, unit)
                        values (:system, 'PH', 7.9, 8.4, 'pH'), (:system, 'ALKALINITY', 7, 9, 'dKH'),
                            (:system, 'AMMONIA', 0, 0.1, 'mg/L')
                        """).param("system", stop.system().value()).update();
    }

    private void begin() {
        begin("");
    }

    private static Locator button(Locator within, String name) {
        return within.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName(name));
    }

    private static Locator input(Locator row, String name) {
        return row.getByLabel(name, new Locator.GetByLabelOptions().setExact(true));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            pH             | 78  | Did you mean 7.8 pH?               | Take it as 7.8 pH        | 7.8
            pH             | 82  | Did you mean 8.2 pH?               | Take it as 8.2 pH        | 8.2
            Alkalinity     | 140 | Did you mean 140 mg/L CaCO         | Take it as 140 mg/L CaCO | 140
            Ammonia, total | 0   | no kit can show that there is none | Below what               | ''
            """)
    void asksBackWithoutASignalAsWithOneAndLosesNothing(
            String name, String typed, String asked, String offered, String then) {
        begin();
        page.route("**/api/**", route -> route.abort());
        type(page, name, typed);
        Locator row = field(page, name);
        assertThat(row.locator(".field-error")).containsText(asked);
        assertThat(page.locator("#sync")).containsText("Not saved yet: " + name);

        // A dead battery takes nothing of it along.
        page.reload();
        assertThat(input(row, name)).hasValue(typed);
        assertThat(row.locator(".field-error")).containsText(asked);
        button(row, offered).click();
        assertThat(input(row, name)).hasValue(then);
        assertThat(row.locator(".field-error")).hasCount(0);
    }

    /** In the server's own words, which are asked for beside. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '"', textBlock = """
            Out                          | 9999  | visit.water-change | 'out':'9999','unit':'L'
            Out                          | 0     | visit.water-change | 'out':'0','unit':'L'
            Out                          | 4o    | visit.water-change | 'out':'4o','unit':'L'
            In, if it differs from out   | 9000  | visit.water-change | 'out':'40','in':'9000','unit':'L'
            Salinity of the new water    | 350   | visit.water-change | 'out':'40','unit':'L','salinity':'350','salinityUnit':'SG','gravityReference':'20/20'
            Temperature of the new water | 78    | visit.water-change | 'out':'40','unit':'L','temperature':'78','temperatureUnit':'degC'
            100 mm                       | 5.5   | visit.socks        | 'sizeMm':'100','count':'5.5'
            100 mm                       | 20000 | visit.socks        | 'sizeMm':'100','count':'20000'
            """)
    void asksBackTheOtherNumbersOfAVisitAsTheServerDoes(String label, String typed, String kind, String body) {
        begin();
        String refused = String.valueOf(inbox.take(
                        fixture.entry(stop, kind, "{'system':'%s',%s}".formatted(stop.system(), body)))
                .args()
                .get("words"));
        page.route("**/api/**", route -> route.abort());
        Locator part = page.locator(kind.equals("visit.socks") ? "[data-tab=work]" : "[data-tab=water]");
        if (body.contains("'out':'40'")) {
            type(page, "Out", "40");
            assertThat(page.locator("#sync")).containsText("saved on this device");
        }
        type(page, label, typed);
        assertThat(part.locator(".field-error")).containsText(refused);
        assertThat(page.locator("#sync")).containsText("Not saved yet: ");
        page.reload();
        assertThat(input(part, label)).hasValue(typed);
        assertThat(part.locator(".field-error")).containsText(refused);
        PersonAtBrowser.assertAccessible(page);
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).fields())
                .doesNotContainKeys("water-change/" + stop.system(), "socks/" + stop.system() + "/100");
    }

    @Test
    void holdsCopperAgainstInvertebratesWithoutASignalAsTheServerDoes() {
        jdbc.sql("""
                        insert into livestock (id, code, water_system_id, common_name, quantity, will_be_eaten, version)
                        values (:id, :code, :system, 'Cleaner shrimp', 2, false, 0)
                        """)
                .param("id", UUID.randomUUID())
                .param("code", "L-" + stop.visit())
                .param("system", stop.system().value())
                .update();
        begin();
        String body = "{'system':'%s','line':'%s','product':'Copper sulfate','amount':'5','unit':'mL'}";
        EntryAnswer server =
                inbox.take(fixture.entry(stop, "visit.dose", body.formatted(stop.system(), UUID.randomUUID())));
        Assertions.assertThat(server.code()).isEqualTo("plans.dose.copper-animals");
        tablet.setOffline(true);
        Locator work = page.locator("[data-tab=work]");
        button(work, "Add a dose").click();
        type(page, "Product", "Copper  Sulfate");
        type(page, "Amount", "5");
        Locator dose = work.locator(".dose");
        assertThat(dose.locator(".field-error"))
                .containsText(String.valueOf(server.args().get("words")));
        assertThat(page.locator("#sync")).containsText("Not saved yet: ");
        PersonAtBrowser.assertAccessible(page);

        type(page, "If it was given all the same: why", "Poured in by mistake");
        assertThat(page.locator("#sync")).containsText("saved on this device");
        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        allIsSaved(page);
        assertThat(dose).containsText("Call the office now");
    }

    @Test
    void asksWhetherAllIsReadyForAMedicineWithoutASignal() {
        begin();
        tablet.setOffline(true);
        Locator work = page.locator("[data-tab=work]");
        button(work, "Add a dose").click();
        type(page, "Product", "Praziquantel");
        type(page, "Amount", "2");
        Locator dose = work.locator(".dose");
        assertThat(dose.locator(".field-error")).containsText("Before medicine goes in");
        assertThat(dose.locator(".field-error")).containsText("This tablet says so by what it knew at");
        button(dose, "All of this is done: write the dose down").click();
        assertThat(page.locator("#sync")).containsText("saved on this device");
        assertThat(dose.locator(".field-error")).hasCount(0);
    }

    @Test
    void takesAGravityInASalinityFieldForWhatItIs() {
        begin();
        page.route("**/api/**", route -> route.abort());
        Locator row = field(page, "Salinity");
        row.getByText("More about this reading").click();
        row.getByLabel("Instrument").selectOption("");
        row.getByLabel("Unit").selectOption("S");
        type(page, "Salinity", "1.0250");
        assertThat(row.locator(".field-error")).containsText("Did you mean 1.0250 SG?");
        type(page, "Salinity", "");
        row.getByLabel("Unit").selectOption("SG");
        type(page, "Salinity", "35");
        assertThat(row.locator(".field-error")).containsText("Did you mean 35 S?");
        button(row, "Take it as 35 S").click();
        assertThat(row.locator(".field-error")).hasCount(0);
        page.unrouteAll();
        PersonAtBrowser.sendNow(page);
        allIsSaved(page);
        Assertions.assertThat(readings.byVisit(stop.visit()))
                .singleElement()
                .returns(MeasurementUnit.PRACTICAL_SALINITY, ReadingView::unit);
    }

    /** The same number as below, after a buffer of which nobody knows by how much it raises. */
    @Test
    void isNotSurprisedByWhatADoseSinceLastTimeExplains() {
        twoWeeksAgo("8.0");
        jdbc.sql("""
                        insert into dose_given (
                            key, visit_id, agreed, water_system_id, product, amount, unit, given_at, received_at, further)
                        values (:key, :visit, false, :system, 'Reef buffer', 30, 'mL', :at, :at, false)
                        """)
                .param("key", UUID.randomUUID() + "/dose/1")
                .param("visit", UUID.randomUUID())
                .param("system", stop.system().value())
                .param("at", clock.instant().minus(Duration.ofDays(7)).atOffset(ZoneOffset.UTC))
                .update();
        begin();
        page.route("**/api/**", route -> route.abort());
        Locator row = field(page, "Alkalinity");
        type(page, "Alkalinity", "13.5");
        assertThat(row.locator(".verdict")).not().isEmpty();
        assertThat(row).not().containsText("This surprises");
        page.reload();
        assertThat(row.locator(".verdict")).not().isEmpty();
        assertThat(row).not().containsText("This surprises");
    }

    /** 2.5 dKH in 14 days is what such water moves at most: common practice, no source. */
    @Test
    void asksOnceForARepeatWhereAValueSurprisesAndKeepsBoth() {
        twoWeeksAgo("8.0");
        begin();
        page.route("**/api/**", route -> route.abort());
        type(page, "Alkalinity", "13.5");
        Locator row = field(page, "Alkalinity");
        assertThat(row).containsText("This surprises");
        assertThat(row).containsText("Last time it was 8.0 dKH");
        assertThat(row).containsText("by 2.5 dKH at most");
        PersonAtBrowser.assertAccessible(page);
        page.reload();
        assertThat(row).containsText("This surprises");
        Locator second = row.getByLabel("Second value: Alkalinity");
        second.fill("85");
        second.blur();
        assertThat(row).containsText("85 dKH is not accepted");
        second.fill("8.5");
        second.blur();
        assertThat(row).containsText("Read more than once, all kept: 13.5 dKH; then 8.5 dKH.");
        assertThat(row).not().containsText("This surprises");
        page.reload();
        assertThat(row).containsText("all kept: 13.5 dKH; then 8.5 dKH.");

        page.unrouteAll();
        page.reload();
        allIsSaved(page);
        assertThat(row).containsText("all kept: 13.5 dKH; then 8.5 dKH.");
        Assertions.assertThat(readings.byVisit(stop.visit()))
                .extracting(reading -> reading.value().orElseThrow().toPlainString())
                .containsExactly("13.5", "8.5");
    }

    @Test
    void takesInOneTapWhyThereIsNoRepeatAndAsksNoMore() {
        twoWeeksAgo("8.0");
        begin();
        type(page, "Alkalinity", "13.5");
        Locator row = field(page, "Alkalinity");
        assertThat(row).containsText("This surprises");
        button(row, "The cause is known here").click();
        assertThat(row).containsText("was not read once more: The cause is known here.");
        allIsSaved(page);
        page.reload();
        assertThat(row).containsText("was not read once more: The cause is known here.");
        assertThat(row).not().containsText("This surprises");
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).fields().keySet())
                .anyMatch(key -> key.startsWith("no-repeat/"));
    }

    @Test
    void isNotSurprisedByWhatSuchWaterDoes() {
        twoWeeksAgo("8.0");
        begin();
        type(page, "Alkalinity", "8.9");
        allIsSaved(page);
        assertThat(field(page, "Alkalinity").locator(".verdict")).not().isEmpty();
        assertThat(field(page, "Alkalinity")).not().containsText("This surprises");
    }

    /** The kit of both readings is in its days and good to 0.1 dKH. */
    private void twoWeeksAgo(String value) {
        people.person(Role.OFFICE);
        NewReading read = bench.believed(NewReading.of(
                ReadingId.of(Uuids.next(clock.instant())),
                stop.system(),
                Quantity.ALKALINITY,
                new BigDecimal(value),
                MeasurementUnit.DEGREE_CARBONATE_HARDNESS,
                clock.instant().minus(Duration.ofDays(14)),
                bench.person()));
        readings.record(read);
        jdbc.sql("update instrument set holder_id = :technician where id = :kit")
                .param("technician", stop.technician().value())
                .param("kit", read.instrumentId().orElseThrow().value())
                .update();
    }
}
