package app.tankround.accounts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.exchange.BusinessExchange;
import app.tankround.persistence.Uuids;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestPeople;
import app.tankround.units.Mass;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
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

/** The register of water containers, as a browser without JavaScript uses it. Ranges and the steps of a wash are our own choice. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
class ContainerPagesTests {

    @Autowired
    private MockMvcTester pages;

    @Autowired
    private ContainerRegister register;

    @Autowired
    private Fleet fleet;

    @Autowired
    private BusinessExchange exchange;

    @Autowired
    private CurrentPerson currentPerson;

    @Autowired
    private TestPeople people;

    @Autowired
    private JdbcClient jdbc;

    private @Nullable VanId van;
    private @Nullable Authentication office;

    @BeforeEach
    void prepare() throws Exception {
        van = VanId.of(new TestBusiness(jdbc).van("Van of containers", 52, 5));
        office = currentPerson.actingAs(
                people.person(Role.OFFICE),
                () -> Objects.requireNonNull(SecurityContextHolder.getContext().getAuthentication()));
    }

    @AfterEach
    void takeAllOut() {
        use(UnitSystem.METRIC);
        jdbc.sql("delete from container_wash").update();
        jdbc.sql("delete from water_container").update();
    }

    @Test
    void aVanWithoutOneSaysSoUntilItHasOne() throws Exception {
        assertThat(text(get("/vans/" + van))).contains("No containers are registered for this van", "drums of");
        assertThat(text(get("/vans/containers"))).contains("No container is registered.", "Van of containers");
        assertThat(text(get("/vans/containers/new?van=" + van)))
                .contains("selected=\"selected\">Van of containers</option>");

        assertThat(post(address(newId()), drum("12"))).hasStatus3xxRedirection();

        assertThat(text(get("/vans/" + van)))
                .contains("12")
                .doesNotContain("No containers are registered for this van");
        assertThat(text(get("/vans/containers"))).contains("Salt water", "20 L", "1.1 kg", "Lifted");
    }

    @Test
    void sentTwiceItIsOneAndALaterHandIsShownBoth() throws Exception {
        WaterContainerId id = newId();
        assertThat(post(address(id), drum("A-1"))).hasStatus3xxRedirection();
        assertThat(post(address(id), drum("A-1"))).hasStatus3xxRedirection();
        assertThat(register.findByNumber("A-1")).isPresent();
        Map<String, String> larger = changed(id, "size", "25");
        assertThat(post(address(id), larger)).hasStatus3xxRedirection();
        MvcTestResult stale = post(address(id), with(larger, "size", "30"));
        assertThat(stale).hasStatus(409);
        assertThat(stale.getResponse().getContentAsString()).contains("Somebody changed this", "25", "30");
        assertThat(register.require(id).size().litres()).isEqualTo(25);
        assertThat(jdbc.sql("select action from change_log where subject_id = :id order by id")
                        .param("id", id.toString())
                        .query(String.class)
                        .list())
                .containsExactly("added", "changed");
    }

    @ParameterizedTest
    @CsvSource({
        "size, 0, is not accepted",
        "size, '', Write a number",
        "size, 1001, is not accepted",
        "size, 1e3, is not a number",
        "empty, -1, is not accepted",
        "empty, 201, is not accepted",
        "stands, 121, is not accepted",
        "number, '', Say which number",
        "number, a:b, cannot be a number",
        "number, 123456789012345678901, cannot be a number",
        "place, '', Choose",
        "place, depot:00000000-0000-0000-0000-000000000000, Choose the van or the pool",
        "role, CLEAN, Choose"
    })
    void refusesAtTheFieldWhatCannotBe(String field, String typed, String said) throws Exception {
        WaterContainerId id = newId();

        MvcTestResult refused = post(address(id), with(drum("13"), field, typed));

        assertThat(refused).hasStatusOk();
        assertThat(refused.getResponse().getContentAsString())
                .contains("field-error")
                .contains(said);
        assertThat(register.find(id)).isEmpty();
    }

    @Test
    void givesANumberOnceHoweverItIsSpelled() throws Exception {
        assertThat(post(address(newId()), drum("b 7"))).hasStatus3xxRedirection();
        WaterContainerId other = newId();
        assertThat(text(post(address(other), drum("B 7")))).contains("There is another container with the number B 7.");
        assertThat(register.find(other)).isEmpty();
    }

    /** A US gallon is 3.785411784 L (NIST Handbook 44, Appendix C), a pound 0.45359237 kg, an inch 2.54 cm. */
    @Test
    void readsTheUnitsOfTheBusiness() throws Exception {
        use(UnitSystem.US_CUSTOMARY);
        WaterContainerId id = newId();
        Map<String, String> form = with(with(with(drum("5"), "size", "5"), "empty", "2"), "stands", "10");

        assertThat(post(address(id), form)).hasStatus3xxRedirection();

        WaterContainerView stored = register.require(id);
        assertThat(stored.size().litres()).isEqualTo(18.92706);
        assertThat(stored.empty().kilograms()).isEqualTo(0.9071847);
        assertThat(stored.standsCm()).isEqualTo(25.4);
        assertThat(text(get(address(id)))).contains("value=\"5\"", ">gal<", ">lb<", ">in<");
        assertThat(text(post(address(newId()), with(form, "size", "265")))).contains("265", "264.172");
    }

    @Test
    void aRoundedNumberThatNobodyTouchedChangesNothing() throws Exception {
        WaterContainerId id = newId();
        assertThat(post(address(id), drum("6"))).hasStatus3xxRedirection();
        use(UnitSystem.US_CUSTOMARY);
        String shown = text(get(address(id)));
        assertThat(shown).contains("value=\"5.283\"", "value=\"2.425\"");
        assertThat(post(address(id), with(with(with(drum("6"), "size", "5.283"), "empty", "2.425"), "version", "1")))
                .hasStatus3xxRedirection();
        assertThat(register.require(id).size().litres()).isEqualTo(20);
        assertThat(register.require(id).version()).isEqualTo(1);
    }

    @ParameterizedTest
    @CsvSource({
        "WASTE, FRESH, held waste",
        "WASTE, SALT, held waste",
        "WASTE, TREATMENT, held waste",
        "TREATMENT, FRESH, held water for treatments",
        "TREATMENT, SALT, held water for treatments",
        "FRESH, SALT, only with a wash",
        "SALT, FRESH, only with a wash"
    })
    void refusesARoleThatWouldHarm(String before, String after, String said) throws Exception {
        WaterContainerId id = newId();
        assertThat(post(address(id), with(drum("20"), "role", before))).hasStatus3xxRedirection();

        assertThat(text(post(address(id), changed(id, "role", after)))).contains(said);

        assertThat(register.require(id).role()).isEqualTo(ContainerRole.valueOf(before));
    }

    @ParameterizedTest
    @CsvSource({"FRESH, WASTE", "SALT, TREATMENT", "TREATMENT, WASTE"})
    void letsWhatIsCleanBecomeWhatIsNot(String before, String after) throws Exception {
        WaterContainerId id = newId();
        assertThat(post(address(id), with(drum("21"), "role", before))).hasStatus3xxRedirection();

        assertThat(post(address(id), changed(id, "role", after))).hasStatus3xxRedirection();

        assertThat(register.require(id).role()).isEqualTo(ContainerRole.valueOf(after));
    }

    @Test
    void swapsSaltAndFreshByAWholeWash() throws Exception {
        WaterContainerId id = newId();
        assertThat(post(address(id), drum("30"))).hasStatus3xxRedirection();
        assertThat(text(get(address(id)))).contains("Washed, for RO/DI water from now on");
        PersonId washer = people.person(Role.TECHNICIAN);
        Map<String, String> whole = wash(washer);
        for (String step : List.of("rinsed", "washed", "rinsedAgain", "dried")) {
            assertThat(text(post(address(id) + "/wash", without(whole, step)))).contains("All four belong to a wash");
        }
        assertThat(text(post(address(id) + "/wash", with(whole, "washedOn", "2099-01-01"))))
                .contains("field-error");
        assertThat(text(post(address(id) + "/wash", with(whole, "person", "")))).contains("field-error");
        assertThat(register.require(id).role()).isEqualTo(ContainerRole.SALT);

        assertThat(post(address(id) + "/wash", whole)).hasStatus3xxRedirection();
        assertThat(post(address(id) + "/wash", whole)).hasStatus3xxRedirection();

        assertThat(register.require(id).role()).isEqualTo(ContainerRole.FRESH);
        assertThat(register.washes(id))
                .extracting(ContainerWash::from, ContainerWash::to, ContainerWash::person)
                .containsExactly(tuple(ContainerRole.SALT, ContainerRole.FRESH, washer));
        assertThat(post(
                        address(id) + "/wash",
                        with(whole, "id", UUID.randomUUID().toString())))
                .hasStatus(409);
        assertThat(text(get(address(id)))).contains("Washes", "Washed, for Salt water from now on");
    }

    @Test
    void noWashMakesWasteClean() throws Exception {
        WaterContainerId id = newId();
        assertThat(post(address(id), with(drum("31"), "role", "WASTE"))).hasStatus3xxRedirection();
        assertThat(text(get(address(id)))).contains("It never becomes one").doesNotContain("/wash\"");

        assertThat(text(post(address(id) + "/wash", wash(people.person(Role.OFFICE)))))
                .contains("held waste");

        assertThat(register.require(id).role()).isEqualTo(ContainerRole.WASTE);
    }

    @Test
    void namesItsOwnFirstThenThePoolOfItsDepotAndNoneThatIsOutOfUse() throws Exception {
        VanView of = fleet.require(Objects.requireNonNull(van));
        saved("10", Optional.empty(), false);
        saved("9", Optional.of(of.id()), false);
        saved("100", Optional.of(of.id()), false);
        saved("1", Optional.of(of.id()), true);

        assertThat(register.usableBy(of)).extracting(WaterContainerView::number).containsExactly("9", "100", "10");
        assertThat(text(get("/vans/" + van))).contains("9, 100; from the pool 10");
    }

    @Test
    void goesOutAndComesBackAsItWas() throws IOException {
        saved("40", Optional.of(Objects.requireNonNull(van)), false);
        saved("41", Optional.empty(), true);
        byte[] first = containers();
        assertThat(new String(first, StandardCharsets.UTF_8)).contains(",SALT,20,1.1,false,0,true");

        var outcome = exchange.importFile("water-containers.csv", first, false);

        assertThat(outcome.errors()).isEmpty();
        assertThat(outcome.created() + outcome.changed()).isZero();
        assertThat(containers()).isEqualTo(first);
        String fresh = new String(first, StandardCharsets.UTF_8).replace("SALT", "FRESH");
        assertThat(exchange.importFile("water-containers.csv", fresh.getBytes(StandardCharsets.UTF_8), false)
                        .errors())
                .extracting(problem -> problem.code())
                .contains("accounts.container.wash-first");
    }

    private byte[] containers() throws IOException {
        try (var zip = new ZipInputStream(new ByteArrayInputStream(exchange.export()))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                if (entry.getName().equals("water-containers.csv")) {
                    return zip.readAllBytes();
                }
            }
        }
        throw new AssertionError("no file of containers");
    }

    @ParameterizedTest
    @CsvSource({"19, is not accepted", "121, is not accepted", "abc, is not a number"})
    void refusesAFloorThatNoVanHas(String typed, String said) throws Exception {
        assertThat(text(post("/vans/" + van, with(vanForm(), "floor", typed)))).contains("field-error", said);
        assertThat(fleet.require(Objects.requireNonNull(van)).floorCm()).isEmpty();
    }

    /** An inch is 2.54 cm. */
    @Test
    void keepsTheHeightOfAVansFloorInTheUnitsOfTheBusiness() throws Exception {
        assertThat(post("/vans/" + van, with(vanForm(), "floor", "55"))).hasStatus3xxRedirection();
        assertThat(fleet.require(Objects.requireNonNull(van)).floorCm()).contains(55.0);
        use(UnitSystem.US_CUSTOMARY);
        assertThat(text(get("/vans/" + van))).contains("value=\"21.654\"", "Left empty, 24 in.");
        assertThat(post("/vans/" + van, with(with(vanForm(), "floor", "25"), "version", "2")))
                .hasStatus3xxRedirection();
        assertThat(fleet.require(Objects.requireNonNull(van)).floorCm()).contains(63.5);
    }

    private Map<String, String> vanForm() {
        VanView stored = fleet.require(Objects.requireNonNull(van));
        return Map.of(
                "version",
                "1",
                "code",
                stored.code(),
                "name",
                stored.name(),
                "depot",
                stored.depotId().toString(),
                "payload",
                "650",
                "fixedLoad",
                "120",
                "drum",
                "25",
                "drumEmpty",
                "1.2",
                "leavesAt",
                "07:30");
    }

    @Test
    void technicianSeesNone() throws Exception {
        Authentication technician = currentPerson.actingAs(
                people.person(Role.TECHNICIAN),
                () -> Objects.requireNonNull(SecurityContextHolder.getContext().getAuthentication()));
        assertThat(pages.get()
                        .uri("/vans/containers")
                        .with(authentication(technician))
                        .exchange())
                .hasStatus(403);
    }

    @Test
    void refusesWhatNoFormWouldSend() {
        VanView of = fleet.require(Objects.requireNonNull(van));
        assertThatThrownBy(() -> register.save(view("50", Optional.of(of.id()), Optional.of(of.depotId()), false)))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("place"));
    }

    private void saved(String number, Optional<VanId> owner, boolean outOfUse) {
        VanView of = fleet.require(Objects.requireNonNull(van));
        register.save(view(number, owner, owner.isPresent() ? Optional.empty() : Optional.of(of.depotId()), outOfUse));
    }

    private static WaterContainerView view(
            String number, Optional<VanId> owner, Optional<DepotId> pool, boolean outOfUse) {
        return new WaterContainerView(
                newId(),
                number,
                owner,
                pool,
                ContainerRole.SALT,
                Volume.ofLitres(20),
                Mass.ofKilograms(1.1),
                false,
                0,
                outOfUse,
                0);
    }

    private static WaterContainerId newId() {
        return WaterContainerId.of(Uuids.next(Instant.EPOCH.plusSeconds(1_700_000_000)));
    }

    private static String address(WaterContainerId id) {
        return "/vans/containers/" + id;
    }

    private Map<String, String> drum(String number) {
        return Map.of(
                "version",
                "0",
                "number",
                number,
                "place",
                "van:" + van,
                "role",
                "SALT",
                "size",
                "20",
                "empty",
                "1.1",
                "stands",
                "0");
    }

    /** The form of a stored one with one thing changed. */
    private Map<String, String> changed(WaterContainerId id, String field, String value) {
        WaterContainerView stored = register.require(id);
        Map<String, String> form =
                with(drum(stored.number()), "role", stored.role().name());
        return with(with(form, "version", Integer.toString(stored.version())), field, value);
    }

    private static Map<String, String> wash(PersonId person) {
        return Map.of(
                "version",
                "1",
                "id",
                UUID.randomUUID().toString(),
                "rinsed",
                "true",
                "washed",
                "true",
                "rinsedAgain",
                "true",
                "dried",
                "true",
                "person",
                person.toString(),
                "washedOn",
                "2026-03-01");
    }

    private static Map<String, String> with(Map<String, String> fields, String field, String value) {
        Map<String, String> changed = new HashMap<>(fields);
        changed.put(field, value);
        return changed;
    }

    private static Map<String, String> without(Map<String, String> fields, String field) {
        Map<String, String> changed = new HashMap<>(fields);
        changed.remove(field);
        return changed;
    }

    private void use(UnitSystem units) {
        jdbc.sql("update business set unit_system = :units")
                .param("units", units.name())
                .update();
    }

    private MvcTestResult get(String address) {
        return pages.get()
                .uri(address)
                .with(authentication(Objects.requireNonNull(office)))
                .exchange();
    }

    private MvcTestResult post(String address, Map<String, String> fields) {
        var request = pages.post().uri(address);
        fields.forEach(request::param);
        return request.with(authentication(Objects.requireNonNull(office)))
                .with(csrf())
                .exchange();
    }

    private static String text(MvcTestResult result) throws Exception {
        assertThat(result).doesNotHaveFailed();
        return result.getResponse().getContentAsString();
    }
}
