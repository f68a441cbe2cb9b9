package app.tankround.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.Role;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import(PageTester.class)
class ShelfCountTests {

    private static final StockAccount DEPOT = StockAccount.depot();

    @Autowired
    PageTester pages;

    @Autowired
    Catalogue catalogue;

    @Autowired
    StockLedger ledger;

    @Autowired
    StockLabels labels;

    @Autowired
    Receiving receiving;

    @Autowired
    JdbcClient jdbc;

    @Autowired
    Clock clock;

    @Test
    void takesACountDownOnceAlsoWhereSomethingWasMovedSince() {
        StockItemId socks = item("4");
        UUID count = UUID.randomUUID();
        List<StockCount> found = List.of(new StockCount(socks, new BigDecimal("4"), new BigDecimal("7")));

        catalogue.count(count, found);
        ledger.take(NewStockMovement.of(
                UUID.randomUUID(),
                socks,
                new BigDecimal("3"),
                DEPOT,
                StockAccount.of(StockAccountKind.WASTED),
                MovementReason.WASTE));
        catalogue.count(count, found);

        assertThat(ledger.balance(socks, DEPOT)).isEqualByComparingTo("4");
    }

    @Test
    void findsLessAlsoOfALotThatHasExpired() {
        StockItemId kit = item("0");
        LocalDate today = LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC);
        receiving.receive(new NewReceipt(
                UUID.randomUUID(),
                kit,
                BigDecimal.TWO,
                StockAccountKind.BOUGHT,
                DEPOT,
                Optional.of("OLD"),
                Optional.of(today.minusDays(3)),
                today.minusDays(9),
                Optional.empty(),
                Optional.empty()));

        catalogue.count(kit, BigDecimal.ZERO);

        assertThat(ledger.balance(kit, DEPOT)).isEqualByComparingTo("0");
    }

    @Test
    void refusesABarcodeThatWasMisreadOrIsOfSomethingElse() {
        StockItemId one = item("1");
        StockItemId other = item("1");
        String code = "X-" + UUID.randomUUID();
        labels.save(label(one, code, 0), new byte[0]);

        refused("barcode", () -> labels.save(label(other, "4006381339331", 0), new byte[0]));
        refused("barcode", () -> labels.save(label(other, code, 0), new byte[0]));
        refused("file", () -> labels.save(label(one, code, 1), "a letter".getBytes(StandardCharsets.UTF_8)));
        labels.save(label(one, code, 1), "%PDF-1.7 of the supplier".getBytes(StandardCharsets.US_ASCII));

        assertThat(labels.of(one).sheet()).isPresent();
        assertThat(pages.page(Role.TECHNICIAN, "/stock/" + one + "/safety-data-sheet.pdf"))
                .isEqualTo("%PDF-1.7 of the supplier");
        assertThat(pages.page(Role.TECHNICIAN, "/stock/" + one + "/where"))
                .contains("never water into acid", "Safety data sheet");
    }

    @Test
    void countsInTheOrderOfTheShelvesAndLeavesOutWhatIsEmpty() {
        new TestBusiness(jdbc);
        StockItemId first = item("1");
        StockItemId second = item("5");
        labels.save(
                new StockLabel(first, Optional.of("A9"), Optional.empty(), StockHazard.NONE, Optional.empty(), 0),
                new byte[0]);
        labels.save(
                new StockLabel(second, Optional.of("A1"), Optional.empty(), StockHazard.NONE, Optional.empty(), 0),
                new byte[0]);
        String page = pages.page(Role.TECHNICIAN, "/stock/shelves/count");
        assertThat(page.indexOf(second.toString())).isLessThan(page.indexOf(first.toString()));
        Map<String, String> form = new HashMap<>(Map.of(
                "id", PageTester.value(page, "id"),
                "lines[0].item", first.toString(),
                "lines[0].expected", "1",
                "lines[0].counted", "",
                "lines[1].item", second.toString(),
                "lines[1].expected", "5",
                "lines[1].counted", "-2"));

        assertThat(PageTester.body(pages.post(Role.TECHNICIAN, "/stock/shelves/count", form)))
                .contains("-2 is not accepted")
                .contains("f-lines-1-counted");
        form.put("lines[1].counted", "");
        assertThat(PageTester.body(pages.post(Role.TECHNICIAN, "/stock/shelves/count", form)))
                .contains("Nothing is counted yet");
        form.put("lines[1].counted", "6");
        assertThat(pages.post(Role.TECHNICIAN, "/stock/shelves/count", form)).hasStatus3xxRedirection();

        assertThat(ledger.balance(first, DEPOT)).isEqualByComparingTo("1");
        assertThat(ledger.balance(second, DEPOT)).isEqualByComparingTo("6");
    }

    private static StockLabel label(StockItemId item, String code, int version) {
        return new StockLabel(item, Optional.empty(), Optional.of(code), StockHazard.ACID, Optional.empty(), version);
    }

    private StockItemId item(String onHand) {
        return catalogue.add(new NewStockItem(
                StockKind.MEDIA,
                "Shelf " + UUID.randomUUID(),
                Optional.empty(),
                "count",
                BigDecimal.ONE,
                new BigDecimal(onHand)));
    }

    private static void refused(String field, Runnable action) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(action::run)
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo(field));
    }
}
