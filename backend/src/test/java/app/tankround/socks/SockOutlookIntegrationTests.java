package app.tankround.socks;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.MovementReason;
import app.tankround.stock.NewStockItem;
import app.tankround.stock.NewStockMovement;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockItemDetails;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.Samples;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class SockOutlookIntegrationTests {

    private static final LocalDate WEDNESDAY = LocalDate.of(2026, 11, 25);
    private static final AtomicInteger SIZES = new AtomicInteger(300);

    @Autowired
    private SockOutlook outlook;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private Catalogue catalogue;

    @Autowired
    private StockLedger ledger;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private Samples samples;

    @Autowired
    private PageTester pages;

    @Autowired
    private TestClock clock;

    @Autowired
    private JdbcClient jdbc;

    private int size;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        new TestBusiness(jdbc);
        size = SIZES.incrementAndGet();
    }

    @Test
    void tellsOnWhichDaySocksRunShort() {
        onTheShelf(5);
        agreed(system("Today"), DayOfWeek.WEDNESDAY, TaskView.sockSwap(3, SockSize.ofDiameter(size), 7));
        agreed(system("Friday"), DayOfWeek.FRIDAY, TaskView.sockSwap(3, SockSize.ofDiameter(size), 7));

        SockForecast week = forecast(outlook.weekAhead());

        assertThat(week.shortOn()).contains(LocalDate.of(2026, 11, 27));
        assertThat(week.needed()).isEqualTo(6);
        assertThat(week.missing()).isEqualTo(1);
        // Five are washed on Friday evening and clean on Sunday, so that each week is as the first.
        SockForecast weeks = forecast(outlook.fourWeeks());
        assertThat(weeks.needed()).isEqualTo(24);
        assertThat(weeks.days()).hasSize(SockOutlook.DAYS);
        assertThat(weeks.missing()).isEqualTo(4);
        assertThat(weeks.waysOut()).isNotEmpty();
    }

    /** Three fine ones and four of no stated fineness: the fine ones go where nothing else may, one of them for what takes any. */
    @Test
    void tellsSizesApartByLengthAndFineness() throws Exception {
        SockSize fine = new SockSize(size, Optional.of(400), Optional.of(100));
        onTheShelf(4);
        catalogue.add(new NewStockItem(
                new StockItemDetails(
                        StockKind.SOCK,
                        "Fine sock",
                        Optional.of(size),
                        fine.lengthMm(),
                        fine.finenessUm(),
                        "count",
                        new BigDecimal("0.1"),
                        Optional.empty()),
                BigDecimal.valueOf(3)));
        agreed(system("Any"), DayOfWeek.WEDNESDAY, TaskView.sockSwap(5, SockSize.ofDiameter(size), 7));
        agreed(system("Fine"), DayOfWeek.WEDNESDAY, TaskView.sockSwap(3, fine, 7));

        assertThat(forecast(outlook.weekAhead()).missing()).isEqualTo(1);
        SockForecast ofFine = outlook.weekAhead().stream()
                .filter(each -> each.size().equals(fine))
                .findFirst()
                .orElseThrow();
        assertThat(List.of(ofFine.clean(), ofFine.needed(), ofFine.missing())).containsExactly(3, 3, 0);
        assertThat(forecast(outlook.weekAhead()).clean()).isEqualTo(7);
        assertThat(pages.page(Role.OFFICE, "/socks"))
                .contains("/socks/" + fine.code(), size + " × 400 mm, 100 µm", "Fine sock, " + fine.text());
        assertThat(pages.page(Role.OFFICE, "/socks/" + fine.code()))
                .contains("Filter socks of " + fine.text(), "Enough for four weeks")
                .doesNotContain("Where they are: Sock, ");
        assertThat(pages.page(Role.OFFICE, "/socks/" + size))
                .contains("Where they are: Sock, ", "Where they are: Fine sock");
    }

    /** Where nobody asks for one that is stated so closely, it counts where any will do. */
    @Test
    void forecastsWhatNobodyAsksForWithWhatTakesAny() throws Exception {
        catalogue.add(new NewStockItem(
                new StockItemDetails(
                        StockKind.SOCK,
                        "Fine sock",
                        Optional.of(size),
                        Optional.empty(),
                        Optional.of(100),
                        "count",
                        new BigDecimal("0.1"),
                        Optional.empty()),
                BigDecimal.valueOf(3)));
        assertThat(pages.page(Role.OFFICE, "/socks")).contains("/socks/" + size + "-100");
        agreed(system("Any"), DayOfWeek.WEDNESDAY, TaskView.sockSwap(2, SockSize.ofDiameter(size), 7));

        assertThat(forecast(outlook.weekAhead()).missing()).isZero();
        assertThat(pages.page(Role.OFFICE, "/socks"))
                .contains("/socks/" + size + "\"")
                .doesNotContain("/socks/" + size + "-100");
        assertThat(pages.get(Role.OFFICE, "/socks/" + size + "-100")).hasStatus(404);
    }

    /** Four that the client keeps last for the first swap and a part of the second; a sick system takes none of them. */
    @Test
    void goesByWhatTheClientKeepsFirst() {
        onTheShelf(50);
        WaterSystemId healthy = system("Own socks");
        agreed(healthy, DayOfWeek.WEDNESDAY, TaskView.sockSwap(3, SockSize.ofDiameter(size), 7));
        ledger.post(NewStockMovement.of(
                UUID.randomUUID(),
                catalogue.socks(SockSize.ofDiameter(size)).getFirst().id(),
                BigDecimal.valueOf(4),
                StockAccount.of(StockAccountKind.GIVEN),
                StockAccount.clientOwned(systems.require(healthy).siteId()),
                MovementReason.COUNT));

        assertThat(forecast(outlook.fourWeeks()).days().stream()
                        .map(SockForecast.Day::needed)
                        .filter(needed -> needed > 0))
                .containsExactly(2, 3, 3);

        jdbc.sql("update water_system set infection_class = 'SUSPECTED' where id = :id")
                .param("id", healthy.value())
                .update();
        assertThat(forecast(outlook.fourWeeks()).needed()).isEqualTo(12);
    }

    /** Two visits that nobody made count once, today, and what is done is not needed any more. */
    @Test
    void takesOverdueVisitsAsOneOfToday() {
        onTheShelf(5);
        WaterSystemId system = system("Late");
        agreed(system, DayOfWeek.WEDNESDAY, TaskView.sockSwap(2, SockSize.ofDiameter(size), 7));
        dueVisits.dueOn(WEDNESDAY);
        clock.set(Instant.parse("2026-12-03T05:00:00Z"));

        assertThat(forecast(outlook.weekAhead()).days().getFirst().needed()).isEqualTo(2);

        dueVisits.dueFor(system).forEach(visit -> dueVisits.recordDone(visit.id(), LocalDate.of(2026, 12, 3)));
        assertThat(outlook.weekAhead()).noneMatch(each -> each.size().equals(SockSize.ofDiameter(size)));
    }

    @Test
    void showsTheWaysOutToEverybodyAndTheSettingsToTheOffice() throws Exception {
        onTheShelf(2);
        agreed(system("Short"), DayOfWeek.WEDNESDAY, TaskView.sockSwap(3, SockSize.ofDiameter(size), 7));

        String page = pages.page(Role.TECHNICIAN, "/socks/" + size);

        assertThat(page)
                .contains("Short from Wed, 25 Nov", "Day by day")
                .doesNotContain("??", "style=", "Enough for four weeks", "0 missing");
        assertThat(pages.page(Role.TECHNICIAN, "/socks"))
                .contains(size + " mm")
                .doesNotContain("/socks/washing/edit", "??");
        assertThat(pages.page(Role.OFFICE, "/socks")).contains("/socks/washing/edit");
        assertThat(pages.get(Role.TECHNICIAN, "/socks/washing/edit")).hasStatus(403);
        assertThat(pages.get(Role.OFFICE, "/socks/999")).hasStatus(404);
    }

    @Test
    void goesByTheWashDaysOfTheBusiness() {
        onTheShelf(3);
        agreed(system("Often"), DayOfWeek.WEDNESDAY, TaskView.sockSwap(3, SockSize.ofDiameter(size), 7));
        assertThat(forecast(outlook.fourWeeks()).missing()).isZero();
        Map<String, String> form = washing(pages.page(Role.OFFICE, "/socks/washing/edit"));
        form.remove("washDays");

        assertThat(pages.post(Role.OFFICE, "/socks/washing/edit", form)).hasStatus3xxRedirection();

        assertThat(forecast(outlook.fourWeeks()).missing()).isEqualTo(9);
        // Sent again, it says something about a version that is gone.
        form.put("loadsADay", "7");
        assertThat(pages.post(Role.OFFICE, "/socks/washing/edit", form)).hasStatus(409);
        Map<String, String> back = washing(pages.page(Role.OFFICE, "/socks/washing/edit"));
        assertThat(pages.post(Role.OFFICE, "/socks/washing/edit", back)).hasStatus3xxRedirection();
        assertThat(forecast(outlook.fourWeeks()).missing()).isZero();
    }

    @ParameterizedTest
    @CsvSource({
        "hoursUntilClean, 0",
        "socksInLoad, 501",
        "loadsADay, -1",
        "deliveryDays, 2.5",
        "longestSwapDays, soon",
        "mostWashes, 0"
    })
    void refusesWhatCannotBeAtItsField(String field, String typed) {
        Map<String, String> form = washing(pages.page(Role.OFFICE, "/socks/washing/edit"));
        form.put(field, typed);

        String page = body(pages.post(Role.OFFICE, "/socks/washing/edit", form));

        assertThat(refusal(page, field)).isNotBlank();
        assertThat(page).contains("value=\"" + typed + "\"");
    }

    private static Map<String, String> washing(String page) {
        Map<String, String> form = new HashMap<>();
        for (String field : List.of(
                "version",
                "hoursUntilClean",
                "socksInLoad",
                "loadsADay",
                "deliveryDays",
                "longestSwapDays",
                "mostWashes")) {
            form.put(field, PageTester.value(page, field));
        }
        form.put("washDays", "FRIDAY");
        return form;
    }

    private SockForecast forecast(List<SockForecast> sizes) {
        return sizes.stream()
                .filter(each -> each.size().equals(SockSize.ofDiameter(size)))
                .findFirst()
                .orElseThrow();
    }

    private void onTheShelf(int count) {
        catalogue.add(new NewStockItem(
                StockKind.SOCK, "Sock", Optional.of(size), "count", new BigDecimal("0.1"), BigDecimal.valueOf(count)));
    }

    private WaterSystemId system(String name) {
        return samples.system(samples.site(name), name, InfectionClass.HEALTHY, LocalDate.of(2026, 1, 1));
    }

    private void agreed(WaterSystemId system, DayOfWeek day, TaskView task) {
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(day),
                WEDNESDAY.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(task),
                Optional.of(WEDNESDAY)));
    }
}
