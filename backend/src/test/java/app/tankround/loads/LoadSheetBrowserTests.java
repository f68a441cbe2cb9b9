package app.tankround.loads;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.ContainerRegister;
import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.accounts.WaterContainerId;
import app.tankround.accounts.WaterContainerView;
import app.tankround.clients.SiteId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.Mass;
import app.tankround.units.SockSize;
import app.tankround.units.Volume;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.assertj.core.api.Assertions;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The load sheet in a real browser, with and without JavaScript, with and without a signal. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class LoadSheetBrowserTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    private static @Nullable TestBrowser browser;

    @Autowired
    private TestPeople people;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private LoadTicks ticks;

    @Autowired
    private ContainerRegister register;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @LocalServerPort
    private int port;

    @BeforeAll
    static void openBrowser() {
        browser = TestBrowser.open();
    }

    @AfterAll
    static void closeBrowser() {
        Objects.requireNonNull(browser).close();
    }

    @Test
    void tickIsKeptAtOnceAndAfterTheSignalComesBack() {
        RoundId id = round();
        List<String> complaints = new ArrayList<>();
        try (BrowserContext context = context(new Browser.NewContextOptions())) {
            Page page = signedIn(context);
            page.onPageError(complaints::add);
            page.navigate(address("/rounds/" + id + "/load"));
            Locator boxes = page.locator("[data-load-line] .tick-only");
            boxes.nth(0).click();
            assertThat(page.locator("[data-load-done]")).containsText("1 of ");
            assertThat(page.locator("[data-load-who]").nth(0)).containsText("Test technician");
            Assertions.assertThat(ticks.of(id)).hasSize(1);

            context.setOffline(true);
            boxes.nth(1).click();
            assertThat(page.locator("[data-load-who]").nth(1)).containsText("Kept on this device");
            Assertions.assertThat(ticks.of(id)).hasSize(1);
            context.setOffline(false);
            assertThat(page.locator("[data-load-done]")).containsText("2 of ");
            Assertions.assertThat(ticks.of(id)).hasSize(2);

            boxes.nth(0).click();
            assertThat(page.locator("[data-load-done]")).containsText("1 of ");
        }
        Assertions.assertThat(complaints).isEmpty();
    }

    @Test
    void tickIsKeptWithoutJavaScript() {
        RoundId id = round();
        try (BrowserContext context = context(new Browser.NewContextOptions().setJavaScriptEnabled(false))) {
            Page page = signedIn(context);
            page.navigate(address("/rounds/" + id + "/load"));
            Locator line = page.locator("[data-load-line]").nth(0);
            line.locator(".tick-only").click();
            line.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Keep"))
                    .click();
            assertThat(page.locator("[data-load-done]")).containsText("1 of ");
            assertThat(page.locator(".flash")).containsText("Kept: it is in the van.");
        }
        Assertions.assertThat(ticks.of(id)).hasSize(1);
    }

    @ParameterizedTest
    @ValueSource(ints = {1280, 820, 360})
    void nothingHangsOverTheEdge(int width) {
        RoundId id = round();
        try (BrowserContext context = context(new Browser.NewContextOptions().setViewportSize(width, 900))) {
            Page page = signedIn(context);
            for (String path : List.of("/rounds/" + id + "/load", "/stock")) {
                page.navigate(address(path));
                assertThat(page.locator("h1")).isVisible();
                Assertions.assertThat((Boolean) page.evaluate(
                                "document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                        .as(path)
                        .isTrue();
            }
        }
    }

    /** Two people at the van, each with a phone; one of them goes where there is no signal. */
    @Test
    void containersThatAreAlikeAreTickedByTwoPeopleAtOnce() {
        RoundId id = round(3);
        try (BrowserContext one = context(new Browser.NewContextOptions());
                BrowserContext other = context(new Browser.NewContextOptions().setViewportSize(360, 740))) {
            Page page = signedIn(one);
            page.navigate(address("/rounds/" + id + "/load"));
            Page phone = signedIn(other);
            phone.navigate(address("/rounds/" + id + "/load"));
            Locator row = row(page);
            Locator onPhone = row(phone);
            assertThat(row).containsText("containers of 10 L, full");

            onPhone.locator("summary").first().click();
            onPhone.locator("[data-load-part] label").nth(2).click();
            assertThat(onPhone).containsText("1 of 3 in the van.");
            PersonAtBrowser.assertAccessible(phone);
            // Its own page does not know that yet, and says it of all of them.
            row.locator(".tick-only").click();
            assertThat(row.locator("[data-load-who]").first()).containsText("Test technician");
            assertThat(row.locator(".tick-only input")).isChecked();
            Assertions.assertThat(ticks.of(id)).hasSize(3);
            Assertions.assertThat(ticks.of(id).values()).allMatch(LoadTick::ticked);

            clock.advance(Duration.ofMinutes(1));
            phone.reload();
            assertThat(onPhone.locator(".tick-only input")).isChecked();
            other.setOffline(true);
            onPhone.locator("summary").first().click();
            onPhone.locator("input[name=missing]").fill("1");
            onPhone.locator("input[name=instead]").fill("an old one");
            onPhone.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Tick with what is there"))
                    .click();
            assertThat(onPhone).containsText("Kept on this device");
            other.setOffline(false);
            assertThat(onPhone).containsText("1 missing: ");
            assertThat(onPhone).containsText("Instead: an old one. Goes without: 1 ");
            Assertions.assertThat(ticks.of(id).values().stream()
                            .filter(LoadTick::isShort)
                            .map(LoadTick::line))
                    .singleElement()
                    .asString()
                    .contains("-3:10");
        }
    }

    /** The short one is ticked by a person whose browser runs no script. */
    @Test
    void containersThatAreAlikeAreTickedWithoutJavaScript() {
        RoundId id = round(3);
        try (BrowserContext context = context(new Browser.NewContextOptions().setJavaScriptEnabled(false))) {
            Page page = signedIn(context);
            page.navigate(address("/rounds/" + id + "/load"));
            row(page).locator("summary").first().click();
            row(page).locator("input[name=missing]").fill("2");
            row(page)
                    .getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Tick with what is there"))
                    .click();
            assertThat(row(page)).containsText("2 missing: ");
        }
        Assertions.assertThat(ticks.of(id).values()).hasSize(3).allMatch(LoadTick::ticked);
    }

    @ParameterizedTest
    @CsvSource({"1280,LIGHT", "820,DARK", "360,LIGHT"})
    void rowsOfSeveralAreReadByEverybody(int width, ColorScheme scheme) {
        RoundId id = round(3);
        try (BrowserContext context = context(
                new Browser.NewContextOptions().setViewportSize(width, 900).setColorScheme(scheme))) {
            Page page = signedIn(context);
            page.navigate(address("/rounds/" + id + "/load"));
            row(page).locator("summary").first().click();
            assertThat(row(page).locator("[data-load-part]")).hasCount(3);
            PersonAtBrowser.assertAccessible(page);
            Assertions.assertThat(row(page).locator("label.tick, summary").all())
                    .allSatisfy(target ->
                            Assertions.assertThat(target.boundingBox().height).isGreaterThanOrEqualTo(44));
        }
    }

    /** One sheet of A4, in type that can be read: 8.5 pt at least. */
    @Test
    void isPrintedOnOneSheetOfPaper() throws IOException {
        RoundId id = round(6);
        try (BrowserContext context = context(new Browser.NewContextOptions())) {
            Page page = signedIn(context);
            page.navigate(address("/rounds/" + id + "/load"));
            byte[] printed = page.pdf(new Page.PdfOptions().setFormat("A4").setPreferCSSPageSize(true));
            try (PDDocument document = Loader.loadPDF(printed)) {
                Assertions.assertThat(document.getNumberOfPages()).isEqualTo(1);
                Set<Float> sizes = new TreeSet<>();
                var sized = new PDFTextStripper() {
                    @Override
                    protected void processTextPosition(TextPosition text) {
                        if (!text.getUnicode().isBlank()) {
                            sizes.add(text.getYScale());
                        }
                        super.processTextPosition(text);
                    }
                };
                Assertions.assertThat(sized.getText(document)).contains("Van load", "Stops: 1 ", "Loaded by");
                Assertions.assertThat(sizes).allMatch(size -> size >= 8.49);
            }
        }
    }

    private static Locator row(Page page) {
        return page.locator("[data-load-line]").first();
    }

    /** @param alike how many containers of 10 L the van has, all of which are filled */
    private RoundId round(int alike) {
        RoundId id = round();
        var van = rounds.require(id).van();
        String prefix = "B" + van.id().toString().substring(30);
        for (int number = 1; number <= alike; number++) {
            register.save(new WaterContainerView(
                    WaterContainerId.of(UUID.randomUUID()),
                    prefix + "-" + number,
                    Optional.of(van.id()),
                    Optional.empty(),
                    ContainerRole.SALT,
                    Volume.ofLitres(10),
                    Mass.ofKilograms(1),
                    true,
                    0,
                    false,
                    0));
        }
        return id;
    }

    private RoundId round() {
        people.person(Role.TECHNICIAN);
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        TestBusiness business = new TestBusiness(jdbc);
        UUID site = business.site("Harbour Dental", 52.1, 5, null, null);
        WaterSystemId system = WaterSystemId.of(business.system(site, "Foyer reef", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(DayOfWeek.WEDNESDAY),
                TODAY.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(
                        TaskView.waterChangePercent(BigDecimal.TEN),
                        TaskView.sockSwap(2, SockSize.ofDiameter(175), 7),
                        TaskView.dose("Alkalinity solution", new BigDecimal("300"), "mL")),
                Optional.of(TODAY)));
        return rounds.plan(TODAY, VanId.of(business.van("Van 1", 52, 5)), List.of(SiteId.of(site)));
    }

    private static BrowserContext context(Browser.NewContextOptions options) {
        return Objects.requireNonNull(browser).browser().newContext(options);
    }

    private Page signedIn(BrowserContext context) {
        Page page = context.newPage();
        page.navigate(address(people.signInPath(Role.TECHNICIAN)));
        return page;
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }
}
