package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.ContainerRegister;
import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.CurrentPerson;
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
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SequencedMap;
import java.util.Set;
import java.util.UUID;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpStatus;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** Five containers of 8 L, all of them full of the same 40 L, of which each of two stops gets 20. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import(Maud.class)
class LoadRowIntegrationTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private MockMvcTester pages;

    @Autowired
    private LoadSheets sheets;

    @Autowired
    private LoadTicks ticks;

    @Autowired
    private LoadClosings closings;

    @Autowired
    private RoundService rounds;

    @Autowired
    private ContainerRegister register;

    @Autowired
    private Agreements agreements;

    @Autowired
    private People people;

    @Autowired
    private CurrentPerson currentPerson;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @Autowired
    private Maud maud;

    private RoundId id = RoundId.of(UUID.randomUUID());

    private List<LoadLine> lines = List.of();

    private String prefix = "";

    @BeforeEach
    void fiveContainers() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        TestBusiness business = new TestBusiness(jdbc);
        VanId van = VanId.of(business.van("Van", 52, 5));
        prefix = UUID.randomUUID().toString().substring(0, 4) + "-K";
        IntStream.rangeClosed(1, 5).forEach(number -> container(van, prefix + number));
        id = rounds.plan(TODAY, van, List.of(site(business, "First"), site(business, "Second")));
        lines = sheets.loadSheet(id).lines().stream()
                .filter(line -> line.container().isPresent())
                .toList();
        assertThat(lines).hasSize(5);
    }

    @Test
    void showsContainersWithTheSameContentAsOne() throws Exception {
        assertThat(LoadRow.of(lines)).singleElement().satisfies(row -> {
            assertThat(row.amount()).isEqualByComparingTo("5");
            assertThat(row.mass().kilograms())
                    .isEqualTo(lines.stream()
                            .mapToDouble(line -> line.mass().kilograms())
                            .sum());
        });
        assertThat(page())
                .contains(
                        "containers of 8 L, full",
                        "Numbers " + prefix + "1 … " + prefix + "5",
                        "1 " + first() + " 20 L (" + prefix + "1 … " + prefix + "3)",
                        "2 " + second() + " 20 L (" + prefix + "3 … " + prefix + "5)",
                        "Missing, of 5 containers of 8 L, full",
                        "containers " + prefix + "4, " + prefix + "5 (stop 2)")
                .doesNotContain("??");
    }

    @Test
    void ticksAllOfThemAtOnceAndTwoPeopleAsOne() throws Exception {
        assertThat(tick(lines, true, null)).hasStatus3xxRedirection();
        assertThat(page()).contains("Maud, 5:00", "In the van: 5 containers of 8 L, full");
        long said = said();
        PersonId other = other();
        assertThat(currentPerson.actingAs(other, () -> ticks.tick(id, version(), seen(), true, Optional.empty(), "")))
                .isEqualTo(LoadTicks.Outcome.KEPT);
        assertThat(said()).isEqualTo(said).isEqualTo(5);
        assertThat(ticks.of(id).values()).allMatch(LoadTick::ticked);
        assertThat(tick(lines, false, null)).hasStatus3xxRedirection();
        assertThat(ticks.of(id).values()).hasSize(5).noneMatch(LoadTick::ticked);
    }

    /** Somebody else has put the last one in already, so it is not the last one that is missing. */
    @Test
    void takesThoseForMissingThatNobodyHasPutIn() throws Exception {
        PersonId other = other();
        LoadLine last = lines.getLast();
        currentPerson.actingAs(other, () -> ticks.tick(id, version(), last.key(), last.amount(), true));
        assertThat(page()).contains("1 of 5 in the van.");
        assertThat(tick(lines, true, "2")).hasStatus3xxRedirection();
        assertThat(missing()).containsExactly(prefix + "3", prefix + "4");
        assertThat(ticks.of(id).get(last.key())).extracting(LoadTick::personId).isEqualTo(other);
        assertThat(page())
                .contains(
                        "2 missing: " + prefix + "3, " + prefix + "4. Instead: an old one.",
                        "Goes without: 1 " + first() + ", 2 " + second() + ".",
                        "not there");
        // One of the two turned up, the last of them has not.
        assertThat(tick(lines, true, "1")).hasStatus3xxRedirection();
        assertThat(missing()).containsExactly(prefix + "4");
        assertThat(tick(lines, true, "0")).hasStatus3xxRedirection();
        assertThat(missing()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"6", "1.5", "-1", "two"})
    void keepsNothingOfWhatCannotBe(String missing) throws Exception {
        assertThat(tick(lines, true, missing)).hasStatus(HttpStatus.UNPROCESSABLE_CONTENT);
        assertThat(ticks.of(id)).isEmpty();
    }

    @Test
    void keepsAllOrNothing() throws Exception {
        assertThat(maud.does(() -> {
                    var seen = seen();
                    seen.put("salt-water:32.5:no:gone:8.0", BigDecimal.ONE);
                    return ticks.tick(id, version(), seen, true, Optional.empty(), "");
                }))
                .isEqualTo(LoadTicks.Outcome.UNKNOWN_LINE);
        assertThat(maud.does(() -> ticks.tick(id, version() + 1, seen(), true, Optional.empty(), "")))
                .isEqualTo(LoadTicks.Outcome.SHEET_CHANGED);
        assertThat(ticks.of(id)).isEmpty();
        assertThat(pages.post()
                        .uri("/rounds/" + id + "/load/ticks")
                        .param("line", lines.get(0).key(), lines.get(1).key())
                        .param("amount", "1")
                        .param("version", String.valueOf(version()))
                        .with(authentication(maud.signedIn()))
                        .with(csrf())
                        .exchange())
                .hasStatus(HttpStatus.UNPROCESSABLE_CONTENT);
        assertThat(ticks.of(id)).isEmpty();
    }

    /** The closed sheet knows each container, and the reason that was given for those of the row that are left. */
    @Test
    void closesEachContainerByItself() throws Exception {
        tick(lines.subList(0, 3), true, null);
        assertThat(page()).contains(prefix + "4, " + prefix + "5");
        LoadClosing closing = maud.does(
                () -> closings.close(id, version(), Map.of(lines.getFirst().key(), "leaking")));
        assertThat(closing.lines().stream()
                        .filter(line -> line.key().contains(prefix))
                        .toList())
                .extracting(LoadClosing.Line::loaded, line -> line.reason().orElse(""))
                .containsExactly(
                        tuple(BigDecimal.ONE, ""),
                        tuple(BigDecimal.ONE, ""),
                        tuple(BigDecimal.ONE, ""),
                        tuple(BigDecimal.ZERO, "leaking"),
                        tuple(BigDecimal.ZERO, "leaking"));
    }

    private String first() {
        return lines.getFirst().stops().getFirst().siteName();
    }

    private String second() {
        return lines.getLast().stops().getLast().siteName();
    }

    private List<String> missing() {
        return lines.stream()
                .filter(line -> Optional.ofNullable(ticks.of(id).get(line.key()))
                        .filter(LoadTick::isShort)
                        .isPresent())
                .map(line -> line.container().orElseThrow().number())
                .toList();
    }

    private SequencedMap<String, BigDecimal> seen() {
        var seen = new LinkedHashMap<String, BigDecimal>();
        lines.forEach(line -> seen.put(line.key(), line.amount()));
        return seen;
    }

    private long said() {
        return jdbc.sql("select count(*) from load_tick where round_id = :round")
                .param("round", id.value())
                .query(Long.class)
                .single();
    }

    private int version() {
        return rounds.require(id).version();
    }

    private String page() throws Exception {
        return Maud.text(maud.opens("/rounds/" + id + "/load"));
    }

    private MvcTestResult tick(List<LoadLine> row, boolean ticked, @Nullable String missing) {
        // Of two words at one instant nobody knows which is the last.
        clock.advance(Duration.ofSeconds(1));
        var request = pages.post()
                .uri("/rounds/" + id + "/load/ticks")
                .param("line", row.stream().map(LoadLine::key).toArray(String[]::new))
                .param(
                        "amount",
                        row.stream().map(line -> line.amount().toPlainString()).toArray(String[]::new))
                .param("version", String.valueOf(version()))
                .param("instead", "an old one");
        request = ticked ? request.param("ticked", "true") : request;
        request = missing == null ? request : request.param("missing", missing);
        return request.with(authentication(maud.signedIn())).with(csrf()).exchange();
    }

    private PersonId other() {
        String name = "loader-" + UUID.randomUUID();
        return people.add(new NewPerson(PersonId.of(UUID.randomUUID()), name, "Noor", Role.TECHNICIAN, Locale.ENGLISH));
    }

    private void container(VanId van, String number) {
        register.save(new WaterContainerView(
                WaterContainerId.of(UUID.randomUUID()),
                number,
                Optional.of(van),
                Optional.empty(),
                ContainerRole.SALT,
                Volume.ofLitres(8),
                Mass.ofKilograms(0.8),
                false,
                0,
                false,
                0));
    }

    private SiteId site(TestBusiness business, String name) {
        UUID site = business.site(name, 52.1, 5, null, null);
        WaterSystemId system = WaterSystemId.of(business.system(site, name + " system", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(DayOfWeek.WEDNESDAY),
                TODAY.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.waterChangePercent(new BigDecimal("5"))),
                Optional.of(TODAY)));
        return SiteId.of(site);
    }
}
