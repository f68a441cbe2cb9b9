package app.tankround.accounts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestPeople;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** The pages that say who rides in which van when, as a browser without JavaScript uses them. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
class CrewPagesTests {

    @Autowired
    private MockMvcTester pages;

    @Autowired
    private Crews crews;

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
        van = VanId.of(new TestBusiness(jdbc).van("Van", 52, 5));
        jdbc.sql("delete from person_skills").update();
        jdbc.sql("delete from absence").update();
        office = currentPerson.actingAs(
                people.person(Role.OFFICE),
                () -> Objects.requireNonNull(SecurityContextHolder.getContext().getAuthentication()));
    }

    @Test
    void hoursAndWhoRidesAlongAreChangedAndALaterHandIsShownBoth() throws Exception {
        VanId id = Objects.requireNonNull(van);
        String address = "/vans/" + id + "/crew";
        assertThat(text(get(address))).contains("07:30", "16:00");
        PersonId second = people.person(Role.OWNER);
        MvcTestResult backwards =
                post(address, Map.of("version", "0", "days[0].from", "08:00", "days[0].until", "07:00"));
        assertThat(backwards.getResponse().getContentAsString()).contains("A day ends after it begins.");
        MvcTestResult half = post(address, Map.of("version", "0", "days[0].from", "08:00"));
        assertThat(half.getResponse().getContentAsString()).contains("or neither.");
        assertThat(crews.of(id).version()).isZero();
        Map<String, String> saturdays =
                Map.of("version", "0", "second", second.toString(), "days[5].from", "08:00", "days[5].until", "12:00");
        assertThat(post(address, saturdays)).hasStatus3xxRedirection();
        assertThat(crews.of(id).hours())
                .isEqualTo(Map.of(DayOfWeek.SATURDAY, new WorkingHours(LocalTime.of(8, 0), LocalTime.NOON)));
        assertThat(crews.of(id).second()).contains(second);
        assertThat(text(get("/vans"))).contains("Sat", "Test owner");
        assertThat(post(address, Map.of("version", "0", "days[6].from", "08:00", "days[6].until", "12:00")))
                .hasStatus(409);
        assertThat(crews.of(id).hours().keySet()).containsExactly(DayOfWeek.SATURDAY);
    }

    @Test
    void aDayIsCutInTwoHalvesThatFollowEachOther() throws Exception {
        VanId id = Objects.requireNonNull(van);
        String address = "/vans/" + id + "/crew";
        Map<String, String> day = Map.of("version", "0", "days[0].from", "07:00", "days[0].until", "19:00");
        assertThat(refused(address, day, "11:00", "")).contains("or neither.");
        assertThat(refused(address, day, "06:00", "15:00")).contains("06:00 is not between 07:00 and 19:00.");
        assertThat(refused(address, day, "11:00", "10:00")).contains("10:00 is not between 11:00 and 19:00.");
        assertThat(refused(address, day, "11:00", "19:00")).contains("19:00 is not between 11:00 and 19:00.");
        assertThat(crews.of(id).version()).isZero();

        assertThat(post(address, halves(day, "11:00", "15:00"))).hasStatus3xxRedirection();
        WorkingHours monday = Objects.requireNonNull(crews.of(id).hours().get(DayOfWeek.MONDAY));
        assertThat(monday.halves())
                .containsExactly(
                        new WorkingHours(LocalTime.of(7, 0), LocalTime.of(11, 0)),
                        new WorkingHours(LocalTime.of(15, 0), LocalTime.of(19, 0)));
        assertThat(text(get("/vans"))).contains("07:00–11:00, 15:00–19:00");
        assertThat(text(get(address))).contains("value=\"11:00\"", "value=\"15:00\"");
    }

    private String refused(String address, Map<String, String> day, String from, String until) throws Exception {
        return text(post(address, halves(day, from, until)));
    }

    private static Map<String, String> halves(Map<String, String> day, String from, String until) {
        Map<String, String> halves = new HashMap<>(day);
        halves.put("days[0].offFrom", from);
        halves.put("days[0].offUntil", until);
        return halves;
    }

    @Test
    void whatAPersonMayDoAndWhenSomebodyIsAwayIsKept() throws Exception {
        PersonId person = people.person(Role.TECHNICIAN);
        String address = "/vans/people/" + person;
        assertThat(post(address + "/skills", Map.of("version", "0", "electrician", "true")))
                .hasStatus3xxRedirection();
        assertThat(crews.skills(person).skills()).containsExactly(Skill.ELECTRICIAN);
        assertThat(post(address + "/skills", Map.of("version", "0", "diving", "true")))
                .hasStatus(409);
        assertThat(post(address + "/absences", Map.of("first", "2026-12-21", "last", "2026-12-20"))
                        .getResponse()
                        .getContentAsString())
                .contains("The last day is no earlier than the first.");
        assertThat(post(
                        address + "/absences",
                        Map.of("first", "2030-12-21", "last", "2030-12-23", "reason", "Holiday")))
                .hasStatus3xxRedirection();
        assertThat(text(get(address))).contains("Holiday", "21 Dec 2030");
        Absence away = crews.absences(LocalDate.of(2030, 12, 22)).getFirst();
        assertThat(text(get("/vans"))).contains("Licensed electrician");
        assertThat(post(address + "/absences/" + away.id() + "/removed", Map.of()))
                .hasStatus3xxRedirection();
        assertThat(crews.absences(away.first())).isEmpty();
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
