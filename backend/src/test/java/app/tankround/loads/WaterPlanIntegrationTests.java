package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.byLessThan;
import static org.assertj.core.api.Assertions.tuple;

import app.tankround.accounts.DepotId;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.loads.WaterPlan.Cause;
import app.tankround.loads.WaterPlan.Way;
import app.tankround.purification.Plants;
import app.tankround.purification.StageDetails;
import app.tankround.purification.StageId;
import app.tankround.purification.StageKind;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.stock.NewVatLevel;
import app.tankround.stock.NewWaterBatch;
import app.tankround.stock.VatRole;
import app.tankround.stock.WaterBack;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatches;
import app.tankround.stock.WaterVats;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.Salinity;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * A Monday in Dublin, at five in the morning; the van leaves at half past seven, and the depot has a tank of 500 L, a vat of
 * 300 L and membranes that give 20 L an hour at 25 °C. Times are worked out by hand from the usual terms.
 */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import(PageTester.class)
class WaterPlanIntegrationTests {

    private static final LocalDate MONDAY = LocalDate.of(2026, 11, 23);

    @Autowired
    private PageTester pages;

    @Autowired
    private WaterPlans plans;

    @Autowired
    private WaterPlantSettings settings;

    @Autowired
    private WaterVats vats;

    @Autowired
    private WaterBatches batches;

    @Autowired
    private WaterBack back;

    @Autowired
    private Plants plants;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private @Nullable TestBusiness business;
    private VanId van = VanId.of(new UUID(0, 0));
    private DepotId depot = DepotId.of(new UUID(0, 0));
    private WaterSystemId tank = WaterSystemId.of(new UUID(0, 0));
    private WaterSystemId vat = WaterSystemId.of(new UUID(0, 0));

    @BeforeEach
    void hasADepot() {
        clock.set(Instant.parse("2026-11-23T05:00:00Z"));
        business = new TestBusiness(jdbc);
        jdbc.sql("delete from water_plant_terms").update();
        jdbc.sql("update planned_visit set state = 'WITHDRAWN' where state = 'DUE'")
                .update();
        van = VanId.of(business().van("Van", 52, 5));
        depot = DepotId.of(jdbc.sql("select depot_id from van where id = :id")
                .param("id", van.value())
                .query(UUID.class)
                .single());
        UUID site = jdbc.sql("select id from site where depot_id = :id")
                .param("id", depot.value())
                .query(UUID.class)
                .single();
        tank = supply(site, "Tank", 500);
        vat = supply(site, "Vat", 300);
        vats.assign(tank, 0, Optional.of(VatRole.PURIFIED));
        vats.assign(vat, 0, Optional.of(VatRole.MIXING));
        plants.addStage(
                StageId.of(UUID.randomUUID()),
                new StageDetails(
                        tank, StageKind.MEMBRANE, "Thin film", MONDAY, null, null, null, null, null, null, null, null));
        settings.change(terms("20", 0));
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }

    private WaterSystemId supply(UUID site, String name, int litres) {
        UUID id = business().system(site, name, "HEALTHY");
        jdbc.sql(
                        "update water_system set kind = 'SUPPLY', net_volume_l = :litres, evaporation_l_day = 0 where id = :id")
                .param("litres", litres)
                .param("id", id)
                .update();
        return WaterSystemId.of(id);
    }

    /** At 25 °C nothing is corrected, and new membranes have lost nothing. */
    private static WaterPlantTerms terms(String litresPerHour, int version) {
        WaterPlantTerms usual = WaterPlantTerms.usual();
        return new WaterPlantTerms(
                Optional.of(new BigDecimal("25")),
                Optional.of(new BigDecimal(litresPerHour)),
                usual.lossPercentPerYear(),
                usual.fillLitresPerHour(),
                usual.saltMinutes(),
                usual.heatMinutes(),
                usual.circulateMinutes(),
                usual.measureMinutes(),
                usual.spareMinutes(),
                usual.loadMinutes(),
                usual.attendedFrom(),
                usual.attendedUntil(),
                usual.leavesAt(),
                usual.nightFrom(),
                usual.nightUntil(),
                version);
    }

    /** A change of so many litres of salinity 35 on a day; in a round only if one is planned. */
    private SiteId change(LocalDate day, String litres) {
        UUID site = business().site("Site", 52.1, 5, null, null);
        UUID system = business().system(site, "Display", "HEALTHY");
        jdbc.sql("update water_system set net_volume_l = 2000 where id = :id")
                .param("id", system)
                .update();
        jdbc.sql("insert into target (water_system, quantity, low, high, unit) values (:id, 'SALINITY', 34, 36, 'S')")
                .param("id", system)
                .update();
        agreements.add(new NewAgreement(
                "A-" + system,
                WaterSystemId.of(system),
                4,
                Set.of(day.getDayOfWeek()),
                MONDAY,
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.waterChangeLitres(new BigDecimal(litres))),
                Optional.of(day)));
        return SiteId.of(site);
    }

    private RoundId round(LocalDate day, String litres) {
        return rounds.plan(day, van, List.of(change(day, litres)));
    }

    private void level(WaterSystemId of, String litres) {
        vats.read(new NewVatLevel(UUID.randomUUID(), of, new BigDecimal(litres), Optional.empty()));
    }

    /** 100 L are wanted on Wednesday: 30 L wait in drums and are good, 50 L are past their day, 40 L are too thin. */
    @Test
    void countsWhatWaitsInDrumsWhileItIsGood() {
        LocalDate wednesday = MONDAY.plusDays(2);
        round(wednesday, "100");
        level(tank, "500");
        level(vat, "0");
        double without = plans.of(depot).orders().getFirst().volume().litres();
        keep(35, "30", wednesday);
        keep(35, "50", wednesday.minusDays(1));
        keep(34, "40", wednesday.plusDays(5));

        WaterPlan plan = plans.of(depot);
        assertThat(plan.orders().getFirst().volume().litres()).isCloseTo(without - 30, byLessThan(1e-6));
        assertThat(plan.inDrums())
                .singleElement()
                .satisfies(each -> assertThat(each.served().litres()).isEqualTo(30));
    }

    private void keep(double salinity, String litres, LocalDate goodUntil) {
        back.keep(
                UUID.randomUUID(),
                depot,
                Optional.of(Salinity.ofPractical(salinity)),
                new BigDecimal(litres),
                goodUntil,
                "/rounds/x/load/return");
    }

    private static Instant at(int day, String time) {
        return Instant.parse("2026-11-" + day + "T" + time + ":00Z");
    }

    /**
     * The van leaves on Thursday at 07:30: released by 05:45 at the latest, so by 18:00 the day before, when somebody is
     * there. 15 min measured, 8 h circulated and 4 h heated before that: salted by 05:45 on Wednesday, so by 18:00 on
     * Tuesday; filled by 17:30. 200 L of salinity 35 take 197.8 L of water less 0.2 L in the salt mix, 7.58 kg of it at a
     * yield of 0.95 (100 L: 98.91 L and 3.5986 kg of salt, EOS-80 reference implementation).
     */
    @Test
    void goesBackwardsFromLoading() {
        RoundId round = round(MONDAY.plusDays(3), "200");
        level(tank, "0");
        level(vat, "0");
        WaterPlan plan = plans.of(depot);

        assertThat(plan.missing().litres()).isZero();
        assertThat(plan.remedies()).isEmpty();
        WaterPlan.Order order = plan.orders().getFirst();
        assertThat(plan.orders()).hasSize(1);
        assertThat(order.vat()).contains("Vat");
        assertThat(order.rounds()).containsExactly(rounds.require(round).code());
        assertThat(order.product().kilograms()).isCloseTo(2 * 3.5986 / 0.95, byLessThan(0.005));
        assertThat(order.water().litres()).isCloseTo(197.45, byLessThan(0.1));
        assertThat(order.readyBy()).isEqualTo(at(25, "18:00"));
        assertThat(order.measureFrom()).isEqualTo(at(25, "17:45"));
        assertThat(order.circulateFrom()).isEqualTo(at(25, "09:45"));
        assertThat(order.saltFrom()).isEqualTo(at(24, "17:30"));
        assertThat(order.fillFrom()).isEqualTo(at(24, "17:00"));
        // Within what is left between salting and circulating, the night tariff.
        assertThat(order.heatFrom()).isEqualTo(at(25, "02:00"));
        // 197.5 L are 19.75 half hours: what is left of this night, all of the next one, and two half hours by day.
        assertThat(plan.runs().stream().mapToDouble(run -> run.made().litres()).sum())
                .isBetween(197.0, 207.6);
        assertThat(plan.runs())
                .extracting(WaterPlan.Run::from, WaterPlan.Run::until)
                .containsExactly(
                        tuple(at(23, "05:00"), at(23, "06:00")),
                        tuple(at(23, "22:00"), at(24, "06:00")),
                        tuple(at(24, "16:30"), at(24, "17:30")));
    }

    @Test
    void saysOnMondayThatThursdayIsNotEnoughAndWhatWouldHelp() {
        settings.change(terms("4", 1));
        round(MONDAY.plusDays(3), "280");
        level(tank, "100");
        level(vat, "0");
        WaterPlan plan = plans.of(depot);

        // From 05:00 on Monday to 17:30 on Tuesday are 36.5 h: 146 L and the 100 L that are there, of 276.4 L.
        assertThat(plan.shortOn()).contains(MONDAY.plusDays(3));
        double missing = (276.4 - 246) * 280 / 276.4;
        assertThat(plan.missing().litres()).isCloseTo(missing, byLessThan(0.3));
        assertThat(plan.orders().getFirst().cause()).contains(Cause.WATER);
        assertThat(plan.remedies()).extracting(WaterPlan.Remedy::way).contains(Way.HOURS, Way.SMALLER, Way.BUY);
        WaterPlan.Remedy smaller = plan.remedies().stream()
                .filter(way -> way.way() == Way.SMALLER)
                .findFirst()
                .orElseThrow();
        // 246 of 276.4 L are 89 %, so 11 % less.
        assertThat(smaller.number()).isEqualTo(11);
        assertThat(smaller.missing().litres()).isZero();
        assertThat(plan.remedies().getLast().number()).isCloseTo(plan.missing().litres(), byLessThan(1e-9));
        assertThat(pages.page(Role.OFFICE, "/water-plan?depot=" + depot))
                .contains("Not enough by ", "What could be done, and what it gives:", "11 % less", "Then it is enough.")
                .doesNotContain("??");
    }

    @Test
    void asksForASecondVatWhereOneIsOccupied() {
        round(MONDAY.plusDays(3), "250");
        round(MONDAY.plusDays(4), "250");
        level(tank, "500");
        level(vat, "0");
        WaterPlan plan = plans.of(depot);
        assertThat(plan.orders())
                .extracting(order -> order.cause().orElse(null))
                .contains(Cause.VAT);
        assertThat(plan.remedies())
                .filteredOn(way -> way.way() == Way.VAT)
                .extracting(way -> way.missing().litres())
                .containsExactly(0.0);
    }

    @Test
    void isTooLateForTomorrowAndTakesWhatStandsThereAlready() {
        round(MONDAY.plusDays(1), "100");
        level(tank, "500");
        level(vat, "0");
        assertThat(plans.of(depot).orders().getFirst().cause()).contains(Cause.TIME);

        clock.advance(Duration.ofMinutes(1));
        batches.make(new NewWaterBatch(
                WaterBatchId.of(UUID.randomUUID()),
                vat,
                "Vat",
                new BigDecimal("150"),
                Optional.of(new BigDecimal("5.7")),
                Optional.of(new BigDecimal("34.5")),
                new BigDecimal("35.5")));
        WaterPlan plan = plans.of(depot);
        assertThat(plan.orders()).isEmpty();
        assertThat(plan.missing().litres()).isZero();
        assertThat(plan.onHand()).singleElement().satisfies(held -> {
            assertThat(held.served().litres()).isCloseTo(100, byLessThan(0.01));
            assertThat(held.left().litres()).isCloseTo(50, byLessThan(0.01));
            assertThat(held.released()).isFalse();
        });
    }

    @Test
    void estimatesVisitsThatAreInNoRoundYetByTheSameRules() {
        change(MONDAY.plusDays(4), "120");
        jdbc.sql("update depot set name = '0 first', code = '0' where id = :id")
                .param("id", depot.value())
                .update();
        level(tank, "500");
        level(vat, "0");
        List<WaterPlan.Order> orders = plans.of(depot).orders();
        double estimated =
                orders.stream().mapToDouble(order -> order.estimated().litres()).sum();
        assertThat(estimated).isIn(0.0, 120.0);
        assertThat(orders).allSatisfy(order -> assertThat(order.rounds()).isEmpty());
    }

    @Test
    void isReadOnAPageAndKeepsToWhatTheOfficeSays() {
        round(MONDAY.plusDays(3), "200");
        level(tank, "420");
        level(vat, "0");
        assertThat(pages.page(Role.TECHNICIAN, "/water-plan?depot=" + depot))
                .contains("200 L, salinity 35", "420 L of 500 L", "7.6 kg", "gives 20", "licensed electrician")
                .doesNotContain("What it keeps to", "??", "style=");
        String form = pages.page(Role.OFFICE, "/water-plan/terms");
        Map<String, String> sent = new HashMap<>();
        List.of(
                        "version",
                        "feed",
                        "rated",
                        "lossPercentPerYear",
                        "fill",
                        "saltMinutes",
                        "heatMinutes",
                        "circulateMinutes",
                        "measureMinutes",
                        "spareMinutes",
                        "loadMinutes",
                        "attendedFrom",
                        "attendedUntil",
                        "leavesAt",
                        "nightFrom",
                        "nightUntil")
                .forEach(field -> sent.put(field, PageTester.value(form, field)));
        sent.put("circulateMinutes", "3000");
        sent.put("nightUntil", "");
        String refused = PageTester.body(pages.post(Role.OFFICE, "/water-plan/terms", sent));
        assertThat(PageTester.refusal(refused, "circulateMinutes")).contains("2880");
        sent.put("circulateMinutes", "600");
        assertThat(PageTester.refusal(
                        PageTester.body(pages.post(Role.OFFICE, "/water-plan/terms", sent)), "nightUntil"))
                .isEqualTo("Give both, or neither.");
        sent.put("nightUntil", "05:00");
        assertThat(pages.post(Role.OFFICE, "/water-plan/terms", sent)).hasStatus3xxRedirection();
        assertThat(settings.current().circulateMinutes()).isEqualTo(600);
        assertThat(settings.current().nightUntil()).contains(LocalTime.of(5, 0));
        assertThat(pages.page(Role.OFFICE, "/water-plan/vats")).contains("Takes part as", "Tank");
        String level = pages.page(Role.TECHNICIAN, "/water-plan/level?vat=" + tank);
        Map<String, String> read =
                new HashMap<>(Map.of("id", PageTester.value(level, "id"), "vat", tank.toString(), "litres", "501"));
        assertThat(PageTester.refusal(
                        PageTester.body(pages.post(Role.TECHNICIAN, "/water-plan/level", read)), "litres"))
                .contains("501");
        read.put("litres", "333");
        clock.advance(Duration.ofMinutes(1));
        assertThat(pages.post(Role.TECHNICIAN, "/water-plan/level", read)).hasStatus3xxRedirection();
        String move = pages.page(Role.TECHNICIAN, "/water-plan/move");
        Map<String, String> moved = new HashMap<>(Map.of(
                "id", PageTester.value(move, "id"), "from", tank.toString(), "to", vat.toString(), "litres", "400"));
        assertThat(PageTester.refusal(
                        PageTester.body(pages.post(Role.TECHNICIAN, "/water-plan/move", moved)), "litres"))
                .contains("there are 333 L in it");
        moved.put("litres", "33");
        assertThat(pages.post(Role.TECHNICIAN, "/water-plan/move", moved)).hasStatus3xxRedirection();
        assertThat(vats.require(tank).level().litres()).isCloseTo(300, byLessThan(1e-6));
    }
}
