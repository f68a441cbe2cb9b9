package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.byLessThan;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.ContainerRegister;
import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.NewPerson;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.accounts.WaterContainerId;
import app.tankround.accounts.WaterContainerView;
import app.tankround.clients.SiteId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.StopDemand;
import app.tankround.rounds.StopId;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskUse;
import app.tankround.schedule.TaskUses;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.NewStockItem;
import app.tankround.stock.StockItemDetails;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.Mass;
import app.tankround.units.SockSize;
import app.tankround.units.Volume;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.io.UnsupportedEncodingException;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;
import tools.jackson.databind.json.JsonMapper;

/** A real round from agreement to ticked sheet. The van carries 650 kg, 120 kg every day, in drums of 25 L. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
class LoadIntegrationTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private MockMvcTester pages;

    @Autowired
    private LoadSheets sheets;

    @Autowired
    private StopDemand demand;

    @Autowired
    private LoadTicks ticks;

    @Autowired
    private TickEntries entries;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Fleet fleet;

    @Autowired
    private ContainerRegister register;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private TaskUses uses;

    @Autowired
    private Catalogue catalogue;

    @Autowired
    private People people;

    @Autowired
    private CurrentPerson currentPerson;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private JsonMapper json;

    @Autowired
    private TestClock clock;

    private @Nullable TestBusiness business;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        business = new TestBusiness(jdbc);
    }

    /** 40 L at salinity 35: 1.023341 kg/L (EOS-80 reference implementation) and two drums of 1.2 kg. */
    @Test
    void sheetOfARealRoundAddsUp() throws UnsupportedEncodingException {
        RoundId id = round(
                van(), site("Harbour Dental", "HEALTHY", TaskView.waterChangePercent(BigDecimal.TEN), unknownDose()));
        LoadSheet sheet = sheets.loadSheet(id);
        assertThat(water(sheet)).isCloseTo(40 * 1.023341 + 2 * 1.2, byLessThan(0.02));
        LoadLine dose = line(sheet, LoadGroup.DOSES);
        assertThat(dose.estimated()).isTrue();
        assertThat(dose.mass().kilograms()).isCloseTo(0.5 * 1.2, byLessThan(1e-9));
        double lines = sheet.lines().stream()
                .mapToDouble(line -> line.mass().kilograms())
                .sum();
        assertThat(sheet.total().kilograms()).isCloseTo(lines + 120, byLessThan(1e-9));
        assertThat(demand.carried(List.of(rounds.require(id))))
                .extracting(StopDemand.Carried::departure)
                .containsExactly(sheet.total());
        // The two drums come back empty; where there is no drain, full of what was taken out.
        double drained = back(id);
        assertThat(drained - 120).isBetween(2 * 1.2, 2 * 1.2 + 2);
        jdbc.sql("update site set own_drain = false").update();
        assertThat(back(id) - drained).isCloseTo(40 * 1.023341, byLessThan(0.02));
        assertThat(sheets.loadSheet(id).notes()).extracting(LoadText::code).contains("loads.note.no-drain");
        assertThat(sheet.fits()).isTrue();
        assertThat(sheet.drumLift().orElseThrow().heaviest().kilograms()).isGreaterThan(26);
        assertThat(text(get(person(), "/rounds/" + id + "/load")))
                .contains("lifted into the van, the heaviest 26.8 kg", "Your local rules come first.");
    }

    /** Two visits of the week before used half as much again; the sheet, the planner and the page tell the same. */
    @Test
    void sheetGoesByWhatVisitsUsedAndThePlannerByTheSame() throws Exception {
        RoundId id = round(van(), site("Learned", "HEALTHY", TaskView.waterChangePercent(BigDecimal.TEN)));
        WaterSystemId system = dueVisits
                .find(rounds.require(id).stops().getFirst().plannedVisits())
                .getFirst()
                .waterSystemId();
        uses.record(
                UUID.randomUUID(),
                TODAY.minusWeeks(1),
                List.of(new TaskUse(system, TaskKind.WATER_CHANGE, "", 40, 60)));
        try {
            LoadSheet sheet = sheets.loadSheet(id);
            LoadLine drums = line(sheet, LoadGroup.SALT_WATER);
            Assurance assurance = drums.assurance().orElseThrow();
            assertThat(assurance.planned()).isEqualByComparingTo("40");
            assertThat(assurance.loaded().doubleValue()).isBetween(55.0, 80.0);
            assertThat(demand.carried(List.of(rounds.require(id))).getFirst().departure())
                    .isEqualTo(sheet.total());
            assertThat(back(id)).isEqualTo(sheet.legs().getLast().mass().kilograms());
            PersonId office = person();
            assertThat(text(get(office, "/rounds/" + id + "/load")))
                    .contains(
                            "Enough on 49 of 50 rounds.",
                            "one visit used 1.5 of what was planned; drawn to one visit to its kind",
                            "never less than is planned");
            // What is used in the week itself leaves its sheets as they are.
            uses.record(UUID.randomUUID(), TODAY, List.of(new TaskUse(system, TaskKind.WATER_CHANGE, "", 40, 160)));
            assertThat(sheets.loadSheet(id).lines()).isEqualTo(sheet.lines());
            assertThat(terms(office, "4.90")).hasStatus3xxRedirection();
            assertThat(line(sheets.loadSheet(id), LoadGroup.SALT_WATER).assurance())
                    .isEmpty();
        } finally {
            jdbc.sql("delete from learned_use").update();
            jdbc.sql("delete from load_terms").update();
        }
    }

    @ParameterizedTest
    @CsvSource({"0, 0 is", "-1, -1 is", "abc, abc", "'', field-error", "10001, 10001 is"})
    void refusesCostsThatCannotBe(String typed, String said) throws Exception {
        MvcTestResult refused = terms(person(), typed);
        assertThat(text(refused)).contains("field-error", said);
        assertThat(jdbc.sql("select count(*) from load_terms")
                        .query(Integer.class)
                        .single())
                .isZero();
    }

    private MvcTestResult terms(PersonId person, String waterFew) {
        return pages.post()
                .uri("/loads/terms")
                .with(authentication(signedIn(person)))
                .with(csrf())
                .param("version", "0")
                .param("_byUse", "on")
                .param("waterFew", waterFew)
                .param("waterMany", "0.10")
                .param("saltFew", "49")
                .param("saltMany", "1")
                .param("socksFew", "9.5")
                .param("socksMany", "0.5")
                .param("dosesFew", "0.95")
                .param("dosesMany", "0.05")
                .param("safetyPercent", "99")
                .exchange();
    }

    private double back(RoundId id) {
        return demand.carried(List.of(rounds.require(id))).getFirst().back().kilograms();
    }

    @Test
    void finishedStopLeavesTheSheetAsTheVanLeftWithIt() {
        RoundId id = round(van(), site("Harbour Dental", "HEALTHY", TaskView.topUp()));
        jdbc.sql("update water_system set evaporation_l_day = 6").update();
        LoadSheet loaded = sheets.loadSheet(id);
        assertThat(loaded.lines()).extracting(LoadLine::group).contains(LoadGroup.RO_DI_WATER);
        rounds.require(id)
                .stops()
                .forEach(stop -> stop.plannedVisits().forEach(visit -> dueVisits.recordDone(visit, TODAY)));
        assertThat(sheets.loadSheet(id).total()).isEqualTo(loaded.total());
    }

    /** 6 L a day for the seven days since the visit before, which will be done by then. */
    @Test
    void roundWeeksAheadMakesUpForTheDaysSinceTheVisitBeforeIt() {
        VanId van = van();
        SiteId site = site("Harbour Dental", "HEALTHY", TaskView.topUp());
        jdbc.sql("update water_system set evaporation_l_day = 6").update();
        RoundId last = rounds.plan(TODAY, van, List.of(site));
        for (int week = 1; week <= 5; week++) {
            last = rounds.plan(TODAY.plusWeeks(week), van, List.of(site));
        }
        assertThat(line(sheets.loadSheet(last), LoadGroup.RO_DI_WATER).stops())
                .extracting(share -> share.amount().intValue())
                .containsExactly(42);
    }

    @Test
    void pageShowsNumbersWorkingsAndWhoNeedsThem() throws Exception {
        RoundId id = round(van(), site("Harbour Dental", "TREATMENT", TaskView.waterChangePercent(BigDecimal.TEN)));
        String page = text(get(person(), "/rounds/" + id + "/load"));
        assertThat(page)
                .contains(
                        "Drums of salt water",
                        "drum of 25 L",
                        "drum with 15 L",
                        "Apart, at the rear door: for Harbour Dental system only.",
                        "10 % of 400 L are 40 L",
                        "It fits.",
                        "Mixed at the depot the day before",
                        "NIOSH",
                        "0 of ")
                .doesNotContain("??")
                .doesNotContain("style=");
    }

    /** A change of 40 L of salinity 35 at 25 °C weighs 40.934 kg (EOS-80, see {@link LoadRulesTests}). */
    @Test
    void followsTheMassLegByLeg() throws Exception {
        TaskView change = TaskView.waterChangePercent(BigDecimal.TEN);
        SiteId drained = site("Drained", "HEALTHY", change);
        SiteId undrained = site("Undrained", "HEALTHY", change);
        jdbc.sql("update site set own_drain = false where id = :id")
                .param("id", undrained.value())
                .update();
        jdbc.sql("update site set attended_from = '06:00', attended_until = '09:00' where id = :id")
                .param("id", drained.value())
                .update();
        jdbc.sql("update site set attended_from = '12:00', attended_until = '18:00' where id = :id")
                .param("id", undrained.value())
                .update();
        RoundId id = round(van(), drained, undrained);
        List<LoadSheet.Leg> legs = sheets.loadSheet(id).legs();
        assertThat(legs).extracting(LoadSheet.Leg::siteName).containsExactly("", "Drained", "Undrained");
        double leaves = legs.getFirst().mass().kilograms();
        assertThat(legs.getFirst().mass()).isEqualTo(sheets.loadSheet(id).total());
        assertThat(leaves - legs.get(1).mass().kilograms()).isCloseTo(40.934, byLessThan(0.02));
        // As much comes into the van as leaves it.
        assertThat(legs.get(2).mass().kilograms()).isCloseTo(legs.get(1).mass().kilograms(), byLessThan(0.02));
        assertThat(legs.getLast().mass().kilograms()).isCloseTo(back(id), byLessThan(1e-9));
        String page = text(get(person(), "/rounds/" + id + "/load"));
        assertThat(page).contains("On the road, leg by leg", "2 Undrained").doesNotContain("kg too heavy");

        // Where new water is made on site, all of the old water comes on top, but for the salt that was brought.
        jdbc.sql("update site set own_ro_di = true, mixing_barrel = true, own_drain = false")
                .update();
        jdbc.sql("update van set payload_kg = 180 where id = (select van_id from round where id = :id)")
                .param("id", id.value())
                .update();
        LoadSheet collecting = sheets.loadSheet(id);
        assertThat(collecting.fits()).isTrue();
        List<LoadSheet.Leg> heavier = collecting.legs();
        for (int stop = 1; stop <= 2; stop++) {
            assertThat(heavier.get(stop).mass().kilograms()
                            - heavier.get(stop - 1).mass().kilograms())
                    .isBetween(40.934 - 1.6, 40.934 - 1.4);
        }
        assertThat(collecting.notes())
                .filteredOn(note -> note.code().equals("loads.note.heavy-leg"))
                .hasSize(1);
        assertThat(text(get(person(), "/rounds/" + id + "/load")))
                .contains("the van would leave Undrained with 20", "kg too heavy");
    }

    @Test
    void saysPlainlyWhenItDoesNotFit() throws Exception {
        RoundId id = round(van(), site("Big", "HEALTHY", TaskView.waterChangePercent(new BigDecimal("100"))));
        jdbc.sql("update van set payload_kg = 200 where id = (select van_id from round where id = :id)")
                .param("id", id.value())
                .update();
        LoadSheet sheet = sheets.loadSheet(id);
        assertThat(sheet.fits()).isFalse();
        assertThat(sheet.over().kilograms()).isCloseTo(sheet.total().kilograms() - 200, byLessThan(1e-9));
        assertThat(text(get(person(), "/rounds/" + id + "/load")))
                .contains("It does not fit. Van would carry ", " over.");
        assertThat(text(get(person(), "/rounds/" + id))).contains(" of 200 kg: ", " kg too heavy", "state-signal");
        assertThat(text(get(person(), "/rounds?date=" + TODAY))).contains("of 200 kg: ", " too heavy");
    }

    /** Five of any fineness and two fine ones, of which three are wanted where nothing else may go in. */
    @Test
    void checksAndLoadsSocksByLengthAndFineness() throws Exception {
        int size = 232;
        SockSize fine = new SockSize(size, Optional.empty(), Optional.of(100));
        socks(size, 5);
        catalogue.add(new NewStockItem(
                new StockItemDetails(
                        StockKind.SOCK,
                        "Fine",
                        Optional.of(size),
                        Optional.of(400),
                        Optional.of(100),
                        "count",
                        new BigDecimal("0.3"),
                        Optional.empty()),
                BigDecimal.valueOf(2)));
        RoundId id = round(
                van(),
                site("Any", "HEALTHY", TaskView.sockSwap(6, SockSize.ofDiameter(size), 7)),
                site("Fine", "HEALTHY", TaskView.sockSwap(3, fine, 7)));

        LoadSheet sheet = sheets.loadSheet(id);

        assertThat(sheet.socks())
                .containsExactly(
                        new SockCheck(fine, 3, 3, 2, true), new SockCheck(SockSize.ofDiameter(size), 6, 6, 5, true));
        assertThat(sheet.line("sock:" + size).orElseThrow().amount()).isEqualByComparingTo("6");
        assertThat(sheet.line("sock:" + size + "-100").orElseThrow().amount()).isEqualByComparingTo("3");
        assertThat(text(get(person(), "/rounds/" + id + "/load")))
                .contains(
                        "232 mm, 100 µm",
                        "232 mm: 6 for this round, 6 for all rounds of the day, 5 on the shelf. 1 missing.");
    }

    @Test
    void namesSizeAndCountOfSocksThatRunShortOnAllRoundsOfTheDay() throws Exception {
        int size = 231;
        socks(size, 4);
        RoundId one = round(van(), site("One", "HEALTHY", TaskView.sockSwap(3, SockSize.ofDiameter(size), 7)));
        round(van(), site("Other", "HEALTHY", TaskView.sockSwap(2, SockSize.ofDiameter(size), 7)));
        SockCheck check = sheets.loadSheet(one).socks().stream()
                .filter(each -> each.size().equals(SockSize.ofDiameter(size)))
                .findFirst()
                .orElseThrow();
        assertThat(check).isEqualTo(new SockCheck(SockSize.ofDiameter(size), 3, 5, 4, true));
        assertThat(check.missing()).isEqualTo(1);
        assertThat(text(get(person(), "/rounds/" + one + "/load")))
                .contains("231 mm: 3 for this round, 5 for all rounds of the day, 4 on the shelf. 1 missing.");
    }

    /** Twice 40 L are three drums of 25 L and one with 5; once 40 L are one and one with 15. */
    @Test
    void saysOnlyTheDifferenceWhereARoundChangesAfterItWasLoaded() throws Exception {
        TaskView change = TaskView.waterChangePercent(BigDecimal.TEN);
        SiteId stays = site("Stays", "HEALTHY", change, TaskView.sockSwap(2, SockSize.ofDiameter(100), 7));
        SiteId goes = site(
                "Goes",
                "HEALTHY",
                change,
                TaskView.sockSwap(3, SockSize.ofDiameter(100), 7),
                TaskView.sockSwap(1, SockSize.ofDiameter(180), 7));
        VanId van = van();
        RoundId id = round(van, stays, goes);
        LoadSheet sheet = sheets.loadSheet(id);
        PersonId noor = person("Noor");
        for (LoadLine line : sheet.lines()) {
            assertThat(post(
                            noor,
                            id,
                            line.key(),
                            line.amount().toPlainString(),
                            rounds.require(id).version(),
                            true))
                    .hasStatus3xxRedirection();
        }
        assertThat(text(get(noor, "/rounds/" + id + "/load"))).doesNotContain("Changed since it was loaded");
        StopId leaves = rounds.require(id).stops().stream()
                .filter(stop -> stop.siteId().equals(goes))
                .findFirst()
                .orElseThrow()
                .id();
        rounds.removeStop(id, rounds.require(id).version(), leaves);
        assertThat(text(get(noor, "/rounds/" + id + "/load")))
                .contains(
                        "Changed since it was loaded",
                        "Take out 2 drums of 25 L at salinity 35.",
                        "Take out 1 drum with 5 L at salinity 35.",
                        "Enough: 3 socks 100 mm more than needed may stay.",
                        "No stop needs socks 180 mm any more. It may stay.",
                        "Noor put in 3 drums of 25 L before the round was changed.");
        assertThat(sheets.loadSheet(id).lines())
                .extracting(LoadLine::key)
                .contains("salt-water:35.0:rest:15.0")
                .doesNotContain("salt-water:35.0:rest:5.0");
        rounds.plan(TODAY, van, List.of(goes));
        assertThat(text(get(noor, "/rounds/" + id + "/load"))).doesNotContain("Changed since it was loaded");

        // A drum ticked before its content was part of what is ticked.
        jdbc.sql("update load_tick set line = 'salt-water:35.0:rest' where line = 'salt-water:35.0:rest:5.0'")
                .update();
        assertThat(text(get(noor, "/rounds/" + id + "/load"))).doesNotContain("Changed since it was loaded");
    }

    @Test
    void twoPeopleTickAndTheLastWordCounts() throws Exception {
        RoundId id = round(van(), site("Ticked", "HEALTHY", TaskView.sockSwap(2, SockSize.ofDiameter(100), 7)));
        LoadLine socks = line(sheets.loadSheet(id), LoadGroup.SOCKS);
        int version = rounds.require(id).version();
        PersonId noor = person("Noor");
        PersonId ivo = person("Ivo");
        assertThat(post(noor, id, socks.key(), "2", version, true)).hasStatus3xxRedirection();
        assertThat(tick(id, socks).person()).isEqualTo("Noor");
        clock.set(Instant.parse("2026-11-25T05:01:00Z"));
        assertThat(post(ivo, id, socks.key(), "2", version, false)).hasStatus3xxRedirection();
        assertThat(tick(id, socks).ticked()).isFalse();
        assertThat(tick(id, socks).person()).isEqualTo("Ivo");
        clock.set(Instant.parse("2026-11-25T05:02:00Z"));
        assertThat(post(noor, id, socks.key(), "2", version, true)).hasStatus3xxRedirection();
        assertThat(text(get(ivo, "/rounds/" + id + "/load"))).contains("Noor, ", "1 of ", "is-quiet");
    }

    @Test
    void tickingASheetThatChangedIsToldAndNotKept() throws Exception {
        RoundId id = round(van(), site("Changed", "HEALTHY", TaskView.sockSwap(2, SockSize.ofDiameter(100), 7)));
        LoadLine socks = line(sheets.loadSheet(id), LoadGroup.SOCKS);
        int version = rounds.require(id).version();
        MvcTestResult stale = post(person(), id, socks.key(), "2", version + 1, true);
        assertThat(stale).hasStatus(409);
        assertThat(stale.getResponse().getContentAsString()).contains("That tick was not kept.");
        assertThat(post(person(), id, socks.key(), "3", version, true)).hasStatus(409);
        assertThat(ticks.of(id)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"sock:9999, 2", "'', 2", "sock:100, NaN", "sock:100, -2", "sock:100, 1e9", "sock:100, 12345678901"})
    void refusesUnknownLinesAndUnreadableAmounts(String key, String amount) {
        RoundId id = round(van(), site("Refused", "HEALTHY", TaskView.sockSwap(2, SockSize.ofDiameter(100), 7)));
        int version = rounds.require(id).version();
        assertThat(post(person(), id, key, amount, version, true)).hasStatus(422);
        assertThat(ticks.of(id)).isEmpty();
    }

    @Test
    void entriesTickOnceHoweverOftenTheyArrive() {
        RoundId id = round(van(), site("Entry", "HEALTHY", TaskView.sockSwap(2, SockSize.ofDiameter(100), 7)));
        int version = rounds.require(id).version();
        Entry entry = entry(id, """
                {"line": "sock:100", "amount": "2", "ticked": true, "version": %d}""".formatted(version));
        assertThat(entries.apply(entry).status()).isEqualTo(EntryAnswer.Status.APPLIED);
        assertThat(entries.apply(entry).status()).isEqualTo(EntryAnswer.Status.APPLIED);
        assertThat(jdbc.sql("select count(*) from load_tick where round_id = :id")
                        .param("id", id.value())
                        .query(Integer.class)
                        .single())
                .isEqualTo(1);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{\"line\": \"sock:9\", \"amount\": \"2\", \"ticked\": true, \"version\": 1} | line | loads.line-unknown",
                "{\"line\": 9, \"amount\": \"2\", \"ticked\": true, \"version\": 1} | line | loads.line-unknown",
                "{\"amount\": \"2\", \"ticked\": true, \"version\": 1} | line | loads.tick-malformed",
                "{\"line\": \"sock:100\", \"amount\": \"-2\", \"ticked\": true, \"version\": 1} | amount | loads.tick-malformed",
                "{\"line\": \"sock:100\", \"amount\": \"2\", \"ticked\": \"yes\", \"version\": 1} | ticked | loads.tick-malformed",
                "{\"line\": \"sock:100\", \"amount\": \"2\", \"ticked\": true, \"version\": \"a\"} | version | loads.tick-malformed"
            })
    void entriesThatDoNotFitAreRefusedAtTheirFieldAndNotKept(String body, String field, String code) {
        RoundId id = round(van(), site("Odd entry", "HEALTHY", TaskView.sockSwap(2, SockSize.ofDiameter(100), 7)));
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> entries.apply(entry(id, body)))
                .returns(field, FieldRefusal::field)
                .returns(code, FieldRefusal::code);
        assertThat(ticks.of(id)).isEmpty();
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> entries.apply(entry(RoundId.of(UUID.randomUUID()), body)))
                .returns("subject", FieldRefusal::field)
                .returns("loads.round-unknown", FieldRefusal::code);
    }

    @Test
    void anEntryOfAnOlderSheetIsAConflictAndNotKept() {
        RoundId id = round(van(), site("Older entry", "HEALTHY", TaskView.sockSwap(2, SockSize.ofDiameter(100), 7)));
        String body = "{\"line\": \"sock:100\", \"amount\": \"2\", \"ticked\": true, \"version\": 99}";
        assertThat(entries.apply(entry(id, body)).code()).isEqualTo("loads.sheet-changed");
        assertThat(ticks.of(id)).isEmpty();
    }

    @Test
    void customaryBusinessesReadGallonsAndPounds() throws Exception {
        RoundId id = round(van(), site("Customary", "HEALTHY", TaskView.waterChangePercent(BigDecimal.TEN)));
        jdbc.sql("update business set unit_system = 'US_CUSTOMARY'").update();
        try {
            assertThat(text(get(person(), "/rounds/" + id + "/load")))
                    .contains("drum of 6.6 gal", " lb", "10 % of 105.7 gal are 10.6 gal")
                    .doesNotContain("drum of 25 L");
        } finally {
            jdbc.sql("update business set unit_system = 'METRIC'").update();
        }
    }

    @Test
    void countIsKeptWholeOrNotAtAll() throws Exception {
        StockItemView socks = socks(233, 4);
        PersonId office = person();
        assertThat(text(get(office, "/stock"))).contains("Test sock, 233 mm");
        assertThat(count(office, socks, "7")).hasStatus3xxRedirection();
        assertThat(catalogue.require(socks.id()).onHand()).isEqualByComparingTo("7");
        MvcTestResult stale = count(office, socks, "9");
        assertThat(stale).hasStatus(409);
        assertThat(catalogue.require(socks.id()).onHand()).isEqualByComparingTo("7");
    }

    @ParameterizedTest
    @CsvSource({"-1, -1 is", "NaN, NaN", "1000000001, 1000000001 is", "2.5, 2.5"})
    void refusesImpossibleCountsAtTheirField(String typed, String said) throws Exception {
        StockItemView socks = socks(234, 4);
        String page = text(count(person(), socks, typed));
        assertThat(page).contains("field-error", "value=\"" + typed + "\"");
        assertThat(catalogue.require(socks.id()).onHand()).isEqualByComparingTo(socks.onHand());
    }

    @Test
    void itemFormAddsOnceAndRefusesWhatItCannotBe() throws Exception {
        PersonId office = person();
        String blank = text(get(office, "/stock/new"));
        assertThat(blank).contains("Nitrate", "pieces");
        String id = UUID.randomUUID().toString();
        String name = "Plant feed " + id;
        assertThat(item(office, id, name, "mL")).hasStatus3xxRedirection();
        assertThat(item(office, id, name, "mL")).hasStatus3xxRedirection();
        assertThat(catalogue.find(StockKind.DOSE, name.toUpperCase(Locale.ROOT), Optional.empty()))
                .isPresent();
        assertThat(text(item(office, UUID.randomUUID().toString(), name, "mL"))).contains("is on the list already");
        assertThat(text(item(office, UUID.randomUUID().toString(), name + "2", "count")))
                .contains("This kind is not counted in");
    }

    @Test
    void catalogueWeighsInWhateverUnitOfTheSameSort() {
        String name = "Solution " + UUID.randomUUID();
        catalogue.add(
                new NewStockItem(StockKind.DOSE, name, Optional.empty(), "L", new BigDecimal("1.25"), BigDecimal.TEN));
        assertThat(catalogue.masses().of(StockKind.DOSE, name, new BigDecimal("400"), "mL"))
                .satisfies(mass -> assertThat(mass.mass().kilograms()).isCloseTo(0.5, byLessThan(1e-12)))
                .satisfies(mass -> assertThat(mass.estimated()).isFalse());
        assertThat(catalogue.masses().of(StockKind.DOSE, "unheard of", new BigDecimal("250"), "g"))
                .satisfies(mass -> assertThat(mass.mass().kilograms()).isCloseTo(0.25, byLessThan(1e-12)))
                .satisfies(mass -> assertThat(mass.estimated()).isFalse());
    }

    // Building blocks

    private static TaskView unknownDose() {
        return TaskView.dose("Nobody's product", new BigDecimal("500"), "mL");
    }

    private static double water(LoadSheet sheet) {
        return sheet.lines().stream()
                .filter(line -> line.group() == LoadGroup.SALT_WATER)
                .mapToDouble(line -> line.mass().kilograms())
                .sum();
    }

    private static LoadLine line(LoadSheet sheet, LoadGroup group) {
        return sheet.lines().stream()
                .filter(line -> line.group() == group)
                .findFirst()
                .orElseThrow();
    }

    private LoadTick tick(RoundId round, LoadLine line) {
        return Objects.requireNonNull(ticks.of(round).get(line.key()));
    }

    // Registered containers

    /**
     * 40 L at salinity 35, 40.934 kg (EOS-80, see {@link LoadRulesTests}): 30 pumped, 9 and 1 lifted, since one person should
     * lift 10.409 kg there ({@link DrumLiftTests}), less 1.1 kg of the container at 1.0233 kg a litre.
     */
    @Test
    void namesContainersAndHowFarEachIsFilled() throws Exception {
        VanId van = van();
        container(van, "S1", ContainerRole.SALT, 30, 3, true);
        container(van, "S12", ContainerRole.SALT, 20, 1.1, false);
        container(van, "S13", ContainerRole.SALT, 20, 1.1, false);
        container(van, "F1", ContainerRole.FRESH, 500, 9, true);
        RoundId id = round(van, site("Numbered", "HEALTHY", TaskView.waterChangePercent(BigDecimal.TEN)));
        LoadSheet sheet = sheets.loadSheet(id);
        assertThat(sheet.lines())
                .filteredOn(line -> line.group().isWater())
                .extracting(LoadLine::key)
                .containsExactly(
                        "salt-water:35.0:no:S1:30.0", "salt-water:35.0:no:S12:9.0", "salt-water:35.0:no:S13:1.0");
        assertThat(water(sheet)).isCloseTo(40 * 1.023341 + 3 + 2 * 1.1, byLessThan(0.02));
        assertThat(demand.departures(List.of(rounds.require(id)))).containsExactly(sheet.total());
        assertThat(sheet.waterFor(1).litres()).isCloseTo(40, byLessThan(1e-9));
        assertThat(sheet.room().litres()).isEqualTo(70);
        DrumLift lift = sheet.drumLift().orElseThrow();
        assertThat(lift.drums()).isEqualTo(2);
        assertThat(lift.forEverybody()).isTrue();
        // The containers come back, the water does not.
        assertThat(sheet.legs().getLast().mass().kilograms() - 120).isBetween(5.19, 5.2 + 2);
        PersonId noor = person("Noor");
        assertThat(text(get(noor, "/rounds/" + id + "/load")))
                .contains(
                        "Salt water, by container",
                        "container S1, full to 30 L",
                        "container S12 of 20 L, filled to 9 L",
                        "Pumped: filled where it stands in the van.",
                        "Lifted, within what one person should lift.",
                        "container S13 of 20 L, filled to 1 L at salinity 35",
                        "containers S1, S12, S13 (stop 1)",
                        "so none is too heavy",
                        "Your local rules come first.")
                .doesNotContain("??", "No containers are registered", "Drums of salt water");

        for (LoadLine line : sheet.lines()) {
            String amount = line.amount().toPlainString();
            assertThat(post(noor, id, line.key(), amount, rounds.require(id).version(), true))
                    .hasStatus3xxRedirection();
        }
        assertThat(text(get(noor, "/rounds/" + id + "/load"))).doesNotContain("Changed since it was loaded");
        jdbc.sql("update water_system set net_volume_l = 380 where name = 'Numbered system'")
                .update();
        assertThat(text(get(noor, "/rounds/" + id + "/load")))
                .contains(
                        "Take out container S12 with 9 L at salinity 35.",
                        "Take out container S13 with 1 L at salinity 35.",
                        "container S12 of 20 L, filled to 8 L")
                .doesNotContain("Take out container S1 ");
    }

    @Test
    void vanWithoutContainersSaysSoAndLoadsItsUsualDrums() throws Exception {
        RoundId id = round(van(), site("Unnumbered", "HEALTHY", TaskView.waterChangePercent(BigDecimal.TEN)));
        assertThat(text(get(person(), "/rounds/" + id + "/load")))
                .contains(
                        "No containers are registered for Van, neither its own nor in the pool of its depot: its water is"
                                + " reckoned with drums of 25 L.",
                        "drum with 15 L");
    }

    @Test
    void saysWhatFindsNoContainerAndReckonsItWithDrums() throws Exception {
        VanId van = van();
        container(van, "K1", ContainerRole.SALT, 10, 1, true);
        container(van, "K2", ContainerRole.FRESH, 100, 1, true);
        RoundId id = round(
                van,
                site("Short", "HEALTHY", TaskView.waterChangePercent(BigDecimal.TEN)),
                site("Ill", "TREATMENT", TaskView.waterChangePercent(BigDecimal.TEN)));
        LoadSheet sheet = sheets.loadSheet(id);
        assertThat(sheet.lines())
                .extracting(LoadLine::key)
                .contains("salt-water:35.0:no:K1:10.0", "salt-water:35.0:full", "salt-water:35.0:rest:5.0");
        assertThat(water(sheet)).isCloseTo(80 * 1.023341 + 1 + 4 * 1.2, byLessThan(0.04));
        assertThat(sheet.waterFor(1).litres() + sheet.waterFor(2).litres()).isCloseTo(80, byLessThan(1e-9));
        assertThat(text(get(person(), "/rounds/" + id + "/load")))
                .contains(
                        "30 L at salinity 35 find no container",
                        "40 L at salinity 35 for a system that shares nothing find no container",
                        "They are reckoned with drums of 25 L");
        container(van, "K3", ContainerRole.TREATMENT, 50, 2, true);
        assertThat(sheets.loadSheet(id).lines())
                .filteredOn(line -> line.container()
                        .filter(container -> container.number().equals("K3"))
                        .isPresent())
                .singleElement()
                .satisfies(line -> assertThat(line.apartFor()).contains("Ill system"));
    }

    @Test
    void takesContainersForWasteWhereThereIsNoDrain() throws Exception {
        VanId van = van();
        container(van, "Q1", ContainerRole.SALT, 60, 3, true);
        SiteId undrained = site("Without drain", "HEALTHY", TaskView.waterChangePercent(BigDecimal.TEN));
        jdbc.sql("update site set own_drain = false where id = :id")
                .param("id", undrained.value())
                .update();
        RoundId id = round(van, undrained);
        assertThat(text(get(person(), "/rounds/" + id + "/load")))
                .contains("40 L of the old water find no container for waste");
        // 60 L of the clean one, and two drums for 40 L of waste beside it.
        assertThat(sheets.loadSheet(id).room().litres()).isEqualTo(60 + 2 * 25);
        container(van, "W1", ContainerRole.WASTE, 80, 4, true);
        LoadSheet sheet = sheets.loadSheet(id);
        assertThat(line(sheet, LoadGroup.WASTE_CONTAINERS).key()).isEqualTo("container:W1:waste");
        assertThat(sheet.room().litres()).isEqualTo(60 + 80);
        assertThat(sheet.legs().getLast().mass().kilograms() - 120)
                .isBetween(3 + 4 + 40 * 1.023341 - 0.02, 3 + 4 + 40 * 1.023341 + 2);
        assertThat(text(get(person(), "/rounds/" + id + "/load")))
                .contains("Empty containers for old water", "container W1 of 80 L", "empty, for 40 L of old water")
                .doesNotContain("find no container for waste");
    }

    /** What is in the pool goes with the van that leaves first, and stays free for its own next round. */
    @Test
    void sharesThePoolInTheOrderInWhichVansLeave() {
        VanId early = van();
        VanId late = van();
        jdbc.sql("""
                        update van set leaves_at = '08:30', depot_id = (select depot_id from van where id = :early)
                        where id = :late
                        """).param("early", early.value()).param("late", late.value()).update();
        DepotId pool = fleet.require(early).depotId();
        register.save(new WaterContainerView(
                WaterContainerId.of(UUID.randomUUID()),
                "P1",
                Optional.empty(),
                Optional.of(pool),
                ContainerRole.SALT,
                Volume.ofLitres(100),
                Mass.ofKilograms(4),
                true,
                0,
                false,
                0));
        RoundId second = round(late, site("Late", "HEALTHY", TaskView.waterChangePercent(BigDecimal.TEN)));
        assertThat(numbers(second)).containsExactly("P1");
        RoundId first = round(early, site("Early", "HEALTHY", TaskView.waterChangePercent(BigDecimal.TEN)));
        assertThat(numbers(first)).containsExactly("P1");
        assertThat(numbers(second)).isEmpty();
        assertThat(demand.departures(List.of(rounds.require(second), rounds.require(first))))
                .containsExactly(
                        sheets.loadSheet(second).total(),
                        sheets.loadSheet(first).total());
    }

    private List<String> numbers(RoundId id) {
        return sheets.loadSheet(id).lines().stream()
                .flatMap(line -> line.container().stream())
                .map(LoadedContainer::number)
                .toList();
    }

    /** The hands end 40 cm above the floor, where the lifting equation takes 0.003 off for each cm away from 75. */
    @Test
    void reckonsWithTheHeightOfTheVansFloor() throws Exception {
        VanId van = van();
        RoundId id = round(van, site("High", "HEALTHY", TaskView.waterChangePercent(BigDecimal.TEN)));
        jdbc.sql("update van set floor_cm = 100 where id = :id")
                .param("id", van.value())
                .update();
        DrumLift lift = sheets.loadSheet(id).drumLift().orElseThrow();
        assertThat(lift.toCm()).isEqualTo(140);
        assertThat(lift.limit().kilograms())
                .isCloseTo(
                        23 * 25 / 40.0 * (1 - 0.003 * 65) * (0.82 + 4.5 / 100) * (1 - 0.0032 * 30), byLessThan(0.001));
        assertThat(text(get(person(), "/rounds/" + id + "/load"))).contains("from 40 cm up to 140 cm");
    }

    private void container(VanId van, String number, ContainerRole role, double litres, double empty, boolean pumped) {
        register.save(new WaterContainerView(
                WaterContainerId.of(UUID.randomUUID()),
                number,
                Optional.of(van),
                Optional.empty(),
                role,
                Volume.ofLitres(litres),
                Mass.ofKilograms(empty),
                pumped,
                0,
                false,
                0));
    }

    private VanId van() {
        return VanId.of(business().van("Van", 52, 5));
    }

    private RoundId round(VanId van, SiteId... sites) {
        return rounds.plan(TODAY, van, List.of(sites));
    }

    /** A site with one system of 400 L at salinity 34 to 36, due today, a Wednesday. */
    private SiteId site(String name, String infectionClass, TaskView... tasks) {
        WaterSystemId system = system(name, infectionClass);
        agreed(system, DayOfWeek.WEDNESDAY, tasks);
        return SiteId.of(jdbc.sql("select site_id from water_system where id = :id")
                .param("id", system.value())
                .query(UUID.class)
                .single());
    }

    private WaterSystemId system(String name, String infectionClass) {
        UUID site = business().site(name, 52.1, 5, null, null);
        UUID system = business().system(site, name + " system", infectionClass);
        jdbc.sql("insert into target (water_system, quantity, low, high, unit) values (:id, 'SALINITY', 34, 36, 'S')")
                .param("id", system)
                .update();
        return WaterSystemId.of(system);
    }

    private void agreed(WaterSystemId system, DayOfWeek day, TaskView... tasks) {
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(day),
                TODAY.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(tasks),
                Optional.of(TODAY)));
    }

    private StockItemView socks(int size, int onHand) {
        return catalogue.socks(SockSize.ofDiameter(size)).stream()
                .findFirst()
                .orElseGet(() -> catalogue.require(catalogue.add(new NewStockItem(
                        StockKind.SOCK,
                        "Test sock",
                        Optional.of(size),
                        "count",
                        new BigDecimal("0.1"),
                        BigDecimal.valueOf(onHand)))));
    }

    private Entry entry(RoundId round, String body) {
        return new Entry(
                UUID.randomUUID(),
                "load.tick",
                Optional.of(round.value()),
                "tablet-1",
                1,
                OffsetDateTime.parse("2026-11-25T06:00:00+01:00"),
                Duration.ZERO,
                Optional.empty(),
                json.readTree(body),
                person().value());
    }

    private MvcTestResult post(PersonId by, RoundId id, String line, String amount, int version, boolean ticked) {
        var request = pages.post()
                .uri("/rounds/" + id + "/load/ticks")
                .param("line", line)
                .param("amount", amount)
                .param("version", String.valueOf(version));
        request = ticked ? request.param("ticked", "true") : request;
        return request.with(authentication(signedIn(by))).with(csrf()).exchange();
    }

    private MvcTestResult count(PersonId by, StockItemView item, String typed) {
        return pages.post()
                .uri("/stock/count")
                .param("counts[0].id", item.id().toString())
                .param("counts[0].expected", item.onHand().toPlainString())
                .param("counts[0].onHand", typed)
                .with(authentication(signedIn(by)))
                .with(csrf())
                .exchange();
    }

    private MvcTestResult item(PersonId by, String id, String name, String unit) {
        return pages.post()
                .uri("/stock/new")
                .param("id", id)
                .param("version", "0")
                .param("kind", "DOSE")
                .param("name", name)
                .param("unit", unit)
                .param("unitMassKg", "0.0011")
                .param("onHand", "500")
                .with(authentication(signedIn(by)))
                .with(csrf())
                .exchange();
    }

    private MvcTestResult get(PersonId by, String address) {
        return pages.get().uri(address).with(authentication(signedIn(by))).exchange();
    }

    private static String text(MvcTestResult result) throws UnsupportedEncodingException {
        assertThat(result).doesNotHaveFailed();
        return result.getResponse().getContentAsString();
    }

    private PersonId person() {
        return person("Maud");
    }

    private PersonId person(String name) {
        String signInName = "load-" + name.toLowerCase(Locale.ROOT);
        return people.findBySignInName(signInName)
                .map(person -> person.id())
                .orElseGet(() -> people.add(
                        new NewPerson(PersonId.of(UUID.randomUUID()), signInName, name, Role.OFFICE, Locale.ENGLISH)));
    }

    private Authentication signedIn(PersonId id) {
        try {
            return currentPerson.actingAs(
                    id,
                    () -> Objects.requireNonNull(
                            SecurityContextHolder.getContext().getAuthentication()));
        } catch (Exception impossible) {
            throw new AssertionError(impossible);
        }
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
