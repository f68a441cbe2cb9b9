package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.Lots;
import app.tankround.stock.MovementSource;
import app.tankround.stock.NewReceipt;
import app.tankround.stock.NewStockItem;
import app.tankround.stock.Receiving;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A van that is loaded with 325 g of carbon the evening before its round. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import(Maud.class)
class LoadLotTests {

    private static final LocalDate ROUND = LocalDate.of(2026, 11, 25);

    @Autowired
    private LoadSheets sheets;

    @Autowired
    private LoadTicks ticks;

    @Autowired
    private LoadClosings closings;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private Catalogue catalogue;

    @Autowired
    private Receiving receiving;

    @Autowired
    private StockLedger ledger;

    @Autowired
    private Lots lots;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @Autowired
    private Maud maud;

    /** What is still good in the evening and not on the round is neither offered nor booked. */
    @Test
    void namesTheLotsThatClosingTheSheetBooks() throws Exception {
        clock.set(Instant.parse("2026-11-24T17:00:00Z"));
        String name = "Carbon " + UUID.randomUUID();
        StockItemId carbon = maud.does(() -> catalogue.add(new NewStockItem(
                StockKind.MEDIA, name, Optional.empty(), "g", new BigDecimal("0.001"), BigDecimal.ZERO)));
        receive(carbon, "300", "EVE", ROUND.minusDays(1));
        receive(carbon, "500", "JAN", LocalDate.of(2027, 1, 31));
        receive(carbon, "200", "DEC", LocalDate.of(2026, 12, 3));
        RoundId id = round(name);
        LoadLine line = sheets.loadSheet(id).lines().stream()
                .filter(each -> each.group() == LoadGroup.MEDIA)
                .findFirst()
                .orElseThrow();
        assertThat(page(id))
                .contains("From lot DEC (good until Dec 3, 2026) 200 g, then from JAN (good until Jan 31, 2027) 125 g.")
                .doesNotContain("EVE", "??");
        assertThat(ledger.balance(carbon, StockAccount.depot())).isEqualByComparingTo("1000");

        int version = rounds.require(id).version();
        maud.does(() -> ticks.tick(id, version, line.key(), line.amount(), true));
        LoadClosing closing = maud.does(() -> closings.close(id, version, Map.of()));
        assertThat(ledger.ofSource(new MovementSource("load", closing.id().toString())))
                .extracting(
                        movement -> lots.require(movement.lot().orElseThrow()).number() + " "
                                + movement.amount().stripTrailingZeros().toPlainString())
                .containsExactly("DEC 200", "JAN 125");
        assertThat(page(id)).doesNotContain("From lot");
    }

    private String page(RoundId id) throws Exception {
        return Maud.text(maud.opens("/rounds/" + id + "/load")).replace('\u202f', ' ');
    }

    private void receive(StockItemId item, String amount, String lot, LocalDate expiresOn) throws Exception {
        maud.does(() -> {
            receiving.receive(new NewReceipt(
                    UUID.randomUUID(),
                    item,
                    new BigDecimal(amount),
                    StockAccountKind.BOUGHT,
                    StockAccount.depot(),
                    Optional.of(lot),
                    Optional.of(expiresOn),
                    LocalDate.of(2026, 11, 2),
                    Optional.empty(),
                    Optional.empty()));
            return item;
        });
    }

    private RoundId round(String medium) {
        TestBusiness business = new TestBusiness(jdbc);
        UUID site = business.site("Filtered", 52.1, 5, null, null);
        WaterSystemId system = WaterSystemId.of(business.system(site, "Filtered system", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(DayOfWeek.WEDNESDAY),
                ROUND.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.media(medium, new BigDecimal("325"), "g")),
                Optional.of(ROUND)));
        return rounds.plan(ROUND, VanId.of(business.van("Van", 52, 5)), List.of(SiteId.of(site)));
    }
}
