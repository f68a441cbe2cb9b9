package app.tankround.feeds;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopMoves;
import app.tankround.rounds.StopView;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.tanks.Samples;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import biweekly.Biweekly;
import biweekly.component.VEvent;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** Calendars as a reader gets them, without signing in. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class CalendarFeedTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private MockMvcTester reader;

    @Autowired
    private PageTester pages;

    @Autowired
    private CalendarFeeds feeds;

    @Autowired
    private RoundService rounds;

    @Autowired
    private StopMoves moves;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private VanId van = VanId.of(new UUID(0, 0));
    private SiteId near = SiteId.of(new UUID(0, 0));
    private SiteId far = SiteId.of(new UUID(0, 0));
    private RoundId round = RoundId.of(new UUID(0, 0));

    @BeforeEach
    void planARound() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        TestBusiness business = new TestBusiness(jdbc);
        van = VanId.of(business.van("Van", 52, 5));
        near = due(business, "Near", 52.1);
        far = due(business, "Far", 52.2);
        round = rounds.plan(TODAY, van, List.of(near, far));
    }

    private SiteId due(TestBusiness business, String name, double latitude) {
        SiteId site = SiteId.of(business.site(name, latitude, 5, null, null));
        WaterSystemId system = WaterSystemId.of(business.system(site.value(), "Reef of " + name, "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(TODAY.getDayOfWeek()),
                TODAY,
                Optional.empty(),
                20,
                BigDecimal.TEN,
                List.of(),
                Optional.empty()));
        return site;
    }

    @Test
    void vanReadsItsStopsAtTheirTimes() {
        String address = address(FeedKind.VAN, van.value());
        List<VEvent> events = read(address);
        List<StopView> stops = rounds.require(round).stops();
        ZoneId zone = ZoneId.of(
                jdbc.sql("select zone from business").query(String.class).single());
        assertThat(events).hasSize(2);
        for (int i = 0; i < 2; i++) {
            StopView stop = stops.get(i);
            VEvent event = named(events, stop.siteName());
            assertThat(event.getDateStart().getValue().toInstant())
                    .isEqualTo(TODAY.atTime(stop.starts()).atZone(zone).toInstant());
            assertThat(event.getDateEnd().getValue().toInstant())
                    .isEqualTo(TODAY.atTime(stop.departs()).atZone(zone).toInstant());
            assertThat(event.getSequence().getValue()).isZero();
            assertThat(event.getDescription().getValue()).contains("Reef of " + stop.siteName());
        }
    }

    @Test
    void vanReadsTheStopsOfAllItsRoundsOfADay() {
        SiteId later = due(new TestBusiness(jdbc), "Later", 52.15);
        dueVisits.planUntil(TODAY);
        RoundId second = rounds.plan(TODAY, van, 2, LocalTime.of(15, 0), List.of(later));
        String address = address(FeedKind.VAN, van.value());
        List<VEvent> events = read(address);
        StopView stop = rounds.require(second).stops().getFirst();
        ZoneId zone = ZoneId.of(
                jdbc.sql("select zone from business").query(String.class).single());
        assertThat(events).hasSize(3);
        VEvent event = named(events, "Later");
        assertThat(event.getDateStart().getValue().toInstant())
                .isEqualTo(TODAY.atTime(stop.starts()).atZone(zone).toInstant())
                .isAfter(TODAY.atTime(15, 0).atZone(zone).toInstant());
        assertThat(event.getSequence().getValue()).isZero();
        moves.move(second, rounds.require(second).version(), List.of(stop.id()), new StopMoves.Target(TODAY, van, 1));
        VEvent moved = named(read(address), "Later");
        assertThat(moved.getUid().getValue()).isEqualTo(event.getUid().getValue());
        assertThat(moved.getSequence().getValue()).isPositive();
    }

    @Test
    void readingAgainChangesNothingAndIsAnsweredWithoutTheText() {
        String address = address(FeedKind.VAN, van.value());
        MvcTestResult first = reader.get().uri(address).exchange();
        String tag = Objects.requireNonNull(first.getResponse().getHeader(HttpHeaders.ETAG));
        clock.set(Instant.parse("2026-11-25T05:10:00Z"));
        MvcTestResult again =
                reader.get().uri(address).header(HttpHeaders.IF_NONE_MATCH, tag).exchange();
        assertThat(again).hasStatus(HttpStatus.NOT_MODIFIED);
        assertThat(again.getResponse().getContentAsByteArray()).isEmpty();
    }

    @Test
    void movedStopStaysTheSameEventWithAHigherSequence() {
        String address = address(FeedKind.VAN, van.value());
        List<VEvent> before = read(address);
        List<StopId> turned = rounds.require(round).stops().stream()
                .map(StopView::id)
                .toList()
                .reversed();
        clock.set(Instant.parse("2026-11-25T05:10:00Z"));
        rounds.reorder(round, rounds.require(round).version(), turned);

        List<VEvent> after = read(address);
        for (String name : List.of("Near", "Far")) {
            assertThat(named(after, name).getUid())
                    .isEqualTo(named(before, name).getUid());
            assertThat(named(after, name).getSequence().getValue()).isEqualTo(1);
            assertThat(named(after, name).getDateTimeStamp().getValue().toInstant())
                    .isEqualTo(Instant.parse("2026-11-25T05:10:00Z"));
        }
    }

    @Test
    void stopThatIsGoneIsToldAsCancelledAndComesBackAsTheSameEvent() {
        String address = address(FeedKind.VAN, van.value());
        VEvent before = named(read(address), "Far");
        StopView stop = rounds.require(round).stops().stream()
                .filter(each -> each.siteId().equals(far))
                .findFirst()
                .orElseThrow();
        rounds.removeStop(round, rounds.require(round).version(), stop.id());

        VEvent gone = named(read(address), "Far");
        assertThat(gone.getStatus().isCancelled()).isTrue();
        assertThat(gone.getUid()).isEqualTo(before.getUid());
        assertThat(gone.getSequence().getValue()).isEqualTo(1);
        assertThat(named(read(address), "Far").getSequence().getValue()).isEqualTo(1);

        rounds.plan(TODAY, van, List.of(far));
        VEvent back = named(read(address), "Far");
        assertThat(back.getStatus().isConfirmed()).isTrue();
        assertThat(back.getUid()).isEqualTo(before.getUid());
        assertThat(back.getSequence().getValue()).isEqualTo(2);
    }

    @Test
    void clientReadsItsOwnVisitsOnlyWithATimeOnceARoundHasThem() {
        UUID client = jdbc.sql("select client_id from site where id = :site")
                .param("site", near.value())
                .query(UUID.class)
                .single();
        List<VEvent> events = read(address(FeedKind.CLIENT, client));
        assertThat(events).hasSize(9);
        assertThat(events).allMatch(event -> event.getSummary().getValue().endsWith("visit to Near"));
        assertThat(events.stream()
                        .filter(event -> event.getDateStart().getValue().hasTime()))
                .hasSize(1);
        assertThat(events.stream().map(VEvent::getUid).distinct()).hasSize(9);
    }

    @Test
    void droppedVisitIsCancelledForTheClient() {
        UUID client = jdbc.sql("select client_id from site where id = :site")
                .param("site", near.value())
                .query(UUID.class)
                .single();
        String address = address(FeedKind.CLIENT, client);
        read(address);
        WaterSystemId system = WaterSystemId.of(jdbc.sql("select id from water_system where site_id = :site")
                .param("site", near.value())
                .query(UUID.class)
                .single());
        dueVisits.drop(dueVisits.dueFor(system).getLast().id(), "Client on holiday");
        assertThat(read(address).stream().filter(event -> event.getStatus().isCancelled()))
                .hasSize(1);
    }

    @Test
    void revokedAndInventedAddressesLeadNowhere() {
        String address = address(FeedKind.VAN, van.value());
        UUID id = feeds.readable().stream()
                .filter(feed -> feed.subjectId().equals(van.value()))
                .map(FeedView::id)
                .findFirst()
                .orElseThrow();
        assertThat(pages.post(Role.OFFICE, "/calendar-feeds/" + id + "/revoke", Map.of()))
                .hasStatus(HttpStatus.FOUND);
        assertThat(reader.get().uri(address).exchange()).hasStatus(HttpStatus.NOT_FOUND);
        assertThat(reader.get().uri("/calendar/invented.ics").exchange()).hasStatus(HttpStatus.NOT_FOUND);
        assertThat(feeds.readable()).noneMatch(feed -> feed.id().equals(id));
    }

    @Test
    void pageMakesAnAddressForTheOfficeOnly() {
        assertThat(pages.get(Role.TECHNICIAN, "/calendar-feeds")).hasStatus(HttpStatus.FORBIDDEN);
        assertThat(pages.page(Role.OFFICE, "/calendar-feeds")).contains("VAN:" + van);
        assertThat(address(FeedKind.VAN, van.value())).startsWith("/calendar/").endsWith(".ics");
        assertThat(PageTester.refusal(
                        PageTester.body(pages.post(
                                Role.OFFICE, "/calendar-feeds", Map.of("subject", "VAN:" + UUID.randomUUID()))),
                        "subject"))
                .contains("no such person, van or client");
    }

    private String address(FeedKind kind, UUID subject) {
        MvcTestResult made = pages.post(Role.OFFICE, "/calendar-feeds", Map.of("subject", kind + ":" + subject));
        String whole = String.valueOf(made.getMvcResult().getFlashMap().get("address"));
        return whole.substring(whole.indexOf("/calendar/"));
    }

    private List<VEvent> read(String address) {
        MvcTestResult told = reader.get().uri(address).exchange();
        assertThat(told).hasStatusOk().hasContentTypeCompatibleWith("text/calendar");
        return Biweekly.parse(new String(told.getResponse().getContentAsByteArray(), StandardCharsets.UTF_8))
                .first()
                .getEvents();
    }

    private static VEvent named(List<VEvent> events, String site) {
        return events.stream()
                .filter(event -> event.getSummary().getValue().endsWith(site))
                .findFirst()
                .orElseThrow();
    }
}
