package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.KitTimes;
import app.tankround.instruments.NewInstrument;
import app.tankround.readings.ReadingService;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.NewStockItem;
import app.tankround.stock.StockItemDetails;
import app.tankround.stock.StockKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.sql.Types;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A kit of 3 tests, of which readings used some up; what it tests for is of these tests alone. */
@SpringBootTest(properties = "spring.application.name=kit-tests-left")
@AutoConfigureMockMvc
@IntegrationTest
@Import(Maud.class)
class KitTestsLeftTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private LoadSheets sheets;

    @Autowired
    private ReadingService readings;

    @Autowired
    private InstrumentRegister register;

    @Autowired
    private Catalogue catalogue;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private TestPeople people;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @Autowired
    private Maud maud;

    /** Of another lot, before it was bought, not measured, corrected or of the day itself: none of these is one more. */
    @Test
    void countsTheTestsOfTheLotThatTheKitHasNow() throws Exception {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        maud.does(() -> catalogue.add(kit(StockKind.TEST_KIT, 3)));
        InstrumentId kit = maud.does(() -> register.add(new NewInstrument(
                "K-PO4",
                "Phosphate kit",
                InstrumentKind.COLOUR_KIT,
                Quantity.PHOSPHATE,
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                new BigDecimal("0.01"),
                Optional.empty(),
                Optional.empty(),
                new BigDecimal("0.02"),
                30,
                KitTimes.UNSTATED,
                Optional.of("Lot B"),
                Optional.of(TODAY.plusYears(1)),
                Optional.of(TODAY.minusDays(10)),
                Optional.empty(),
                Optional.empty())));
        TestBusiness business = new TestBusiness(jdbc);
        UUID site = business.site("Tested", 52.1, 5, null, null);
        WaterSystemId system = WaterSystemId.of(business.system(site, "Tested system", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(DayOfWeek.WEDNESDAY),
                TODAY.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.test(Quantity.PHOSPHATE)),
                Optional.of(TODAY)));
        RoundId id = rounds.plan(TODAY, VanId.of(business.van("Van", 52, 5)), List.of(SiteId.of(site)));

        read(system, kit, "lot b", "2026-11-20T10:00:00Z", null);
        UUID wrong = read(system, kit, null, "2026-11-21T10:00:00Z", null);
        read(system, kit, "Lot B", "2026-11-21T10:00:00Z", wrong);
        read(system, kit, "Lot A", "2026-11-22T10:00:00Z", null);
        read(system, kit, null, "2026-10-01T10:00:00Z", null);
        read(system, kit, "Lot B", "2026-11-25T10:00:00Z", null);
        assertThat(readings.testsMade(List.of(kit), Instant.parse("2026-11-25T00:00:00Z")))
                .containsExactly(Map.entry(kit, 2));
        assertThat(line(id).caution()).isEmpty();

        read(system, kit, "Lot B", "2026-11-23T10:00:00Z", null);
        assertThat(line(id).caution()).isPresent();
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load")))
                .contains(
                        "K-PO4 is enough for no test more, and one is planned. Goes without: 1 ", "Take another lot.");
    }

    @Test
    void keepsForHowManyTestsAKitIsEnoughAndNothingElse() throws Exception {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> maud.does(() -> catalogue.add(kit(StockKind.MEDIA, 3))))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("testsPerKit"));
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> maud.does(() -> catalogue.add(kit(StockKind.TEST_KIT, 1001))))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("testsPerKit"));
    }

    private LoadLine line(RoundId id) {
        return sheets.loadSheet(id).line("kit:PHOSPHATE").orElseThrow();
    }

    private static NewStockItem kit(StockKind kind, int tests) {
        return new NewStockItem(
                new StockItemDetails(
                        kind,
                        Quantity.PHOSPHATE.name(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        "count",
                        new BigDecimal("0.3"),
                        Optional.of(tests)),
                BigDecimal.ONE);
    }

    private UUID read(
            WaterSystemId system, InstrumentId kit, @Nullable String lot, String at, @Nullable UUID replaces) {
        UUID id = UUID.randomUUID();
        jdbc.sql("""
                        insert into reading (id, water_system_id, quantity, answer, value, unit, instrument_id, kit_lot,
                            taken_at, person_id, replaces_id, reason, recorded_at)
                        values (:id, :system, 'PHOSPHATE', 'VALUE', 0.03, 'mg/L', :kit, :lot, :at, :person, :replaces, :reason, :at)
                        """)
                .param("id", id)
                .param("system", system.value())
                .param("kit", kit.value())
                .param("lot", lot, Types.VARCHAR)
                .param("at", OffsetDateTime.parse(at))
                .param("person", people.person(Role.TECHNICIAN).value())
                .param("replaces", replaces, Types.OTHER)
                .param("reason", replaces == null ? null : "misread", Types.VARCHAR)
                .update();
        return id;
    }
}
