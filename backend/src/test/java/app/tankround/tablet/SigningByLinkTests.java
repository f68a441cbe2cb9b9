package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.Role;
import app.tankround.documents.FileStore;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.visits.SignatureLinks;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitReport;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import app.tankround.web.EntryAnswer;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** A client who was not there signs later, through a link. */
@SpringBootTest(properties = "db-scheduler.polling-interval=1s")
@AutoConfigureMockMvc
@IntegrationTest
@Import(PageTester.class)
class SigningByLinkTests {

    private static final Pattern LINK = Pattern.compile("/signature/([A-Za-z0-9_-]{43})\\b");

    private static final GreenMail SERVER = started();

    private static GreenMail started() {
        var server = new GreenMail(new ServerSetup(0, null, ServerSetup.PROTOCOL_SMTP));
        server.start();
        return server;
    }

    @DynamicPropertySource
    static void mailServer(DynamicPropertyRegistry registry) {
        registry.add("spring.mail.host", () -> "127.0.0.1");
        registry.add("spring.mail.port", () -> SERVER.getSmtp().getPort());
    }

    @AfterAll
    static void stop() {
        SERVER.stop();
    }

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private SigningByLink signing;

    @Autowired
    private VisitService visits;

    @Autowired
    private VisitReport reports;

    @Autowired
    private FileStore files;

    @Autowired
    private PageTester pages;

    @Autowired
    private MockMvcTester mvc;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private VisitFixture.Stop stop;

    @BeforeEach
    void finishAVisitThatNobodySigned() {
        stop = fixture.stop();
        apply("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
        feeding("AS_USUAL");
        jdbc.sql("update visit set finished_at = :at where id = :id")
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("id", stop.visit())
                .update();
    }

    @Test
    void showsWhatWasDoneAndNothingElseToAStrangerAndTakesTheSignatureOnce() throws IOException {
        apply("visit.note", "{'line':'1','text':'Ask them about the overdue invoice'}");
        jdbc.sql("update site set access_notes = 'Key under the pot' where id = :id")
                .param("id", stop.site().value())
                .update();
        apply("visit.reading", VisitFixture.salinity(stop, fixture.refractometer("1.0266"), "1.025"));
        String token = link();
        assertThat(jdbc.sql("select octet_length(token_hash) from visit_signature_link where visit_id = :visit")
                        .param("visit", stop.visit())
                        .query(Integer.class)
                        .single())
                .isEqualTo(32);

        MvcTestResult shown = get(token);
        assertThat(shown).hasStatusOk();
        assertThat(shown.getResponse().getHeader("Content-Security-Policy")).contains("script-src 'self'");
        assertThat(shown.getResponse().getHeader("Cache-Control")).contains("no-store");
        assertThat(PageTester.body(shown))
                .contains("Skerry Water Care", "Bellwether", "Dining room", "2 March 2026")
                .contains(
                        "Fed; they ate as usual",
                        "Salinity",
                        "1.025 SG 20/20",
                        "target 1.023 to 1.026",
                        "Sign for this visit")
                .doesNotContain("invoice", "Key under", "85.00", "€", "/day");

        assertThat(post(token, "Ann Lee", drawn(), false, shown)).hasRedirectedUrl("/signature/" + token);

        VisitView.Signature signature = signature().orElseThrow();
        assertThat(signature.state()).isEqualTo(VisitView.SignatureState.SIGNED);
        assertThat(signature.name()).contains("Ann Lee");
        assertThat(signature.byLink()).isTrue();
        assertThat(signature.outdated()).isFalse();
        assertThat(signature.at()).isEqualTo(clock.instant());
        assertThat(files.require(signature.drawing().orElseThrow()).mediaType()).isEqualTo("image/png");

        MvcTestResult again = get(token);
        assertThat(again).hasStatus(410);
        assertThat(PageTester.body(again))
                .contains("This link has been used", "Ann Lee signed with it on", "ask Skerry Water Care");
        assertThat(post(token, "Ben Roe", "", true, shown)).hasStatus(410);
        assertThat(signature().orElseThrow().name()).contains("Ann Lee");

        assertThat(office()).contains("Signed by link by Ann Lee on").doesNotContain("Make a link for signing");
        reports.make(visit());
        assertThat(pdf()).contains("signed by link by Ann Lee on 2 March 2026").doesNotContain("Met Ann Lee");
    }

    @Test
    void takesATypedNameWhereNothingCanBeDrawnButNeitherOfBothIsRefused() {
        String token = link();
        MvcTestResult shown = get(token);

        MvcTestResult nothing = post(token, "Ann Lee", "", false, shown);
        assertThat(nothing).hasStatus(422);
        assertThat(PageTester.body(nothing)).contains("Nothing is drawn").contains("value=\"Ann Lee\"");
        MvcTestResult nameless = post(token, " ", drawn(), false, shown);
        assertThat(nameless).hasStatus(422);
        // What was drawn need not be drawn again.
        assertThat(PageTester.body(nameless)).contains("data:image/png;base64,");
        MvcTestResult noPicture = post(token, "Ann Lee", "data:image/png;base64,AAAA", false, shown);
        assertThat(noPicture).hasStatus(422);
        assertThat(post(token, "Ann Lee", "x".repeat(SigningByLink.MOST_DRAWN + 1), false, shown))
                .hasStatus(422);
        assertThat(signature()).isEmpty();

        assertThat(post(token, "Ann Lee", "", true, shown)).hasStatus3xxRedirection();
        assertThat(signature().orElseThrow().name()).contains("Ann Lee");
        assertThat(signature().orElseThrow().drawing()).isEmpty();
    }

    @Test
    void endsALinkAfterFourteenDaysAndWithTheNextOne() {
        String first = link();
        MvcTestResult shown = get(first);
        String second = link();
        assertThat(get(first)).hasStatus(410);
        assertThat(PageTester.body(get(first))).contains("There is a newer link");
        assertThat(post(first, "Ann Lee", "", true, shown)).hasStatus(410);

        clock.advance(SignatureLinks.VALID_FOR.minusSeconds(1));
        assertThat(get(second)).hasStatusOk();
        clock.advance(Duration.ofSeconds(1));
        assertThat(get(second)).hasStatus(410);
        assertThat(PageTester.body(get(second))).contains("This link is too old", "ask Skerry Water Care");
        assertThat(post(second, "Ann Lee", "", true, shown)).hasStatus(410);
        assertThat(signature()).isEmpty();
    }

    @Test
    void knowsNoLinkThatWasNeverMadeAndNoneWithoutItsFormsToken() {
        MvcTestResult unknown = get("A".repeat(43));
        assertThat(unknown).hasStatus(404);
        assertThat(PageTester.body(unknown)).contains("This link is not known", "ask Skerry Water Care");
        String token = link();
        MvcTestResult shown = get(token);
        assertThat(post("B".repeat(43), "Ann Lee", "", true, shown)).hasStatus(404);

        assertThat(mvc.post()
                        .uri("/signature/" + token)
                        .param("name", "Ann Lee")
                        .param("typed", "true")
                        .param("shown", fingerprint(shown))
                        .exchange())
                .hasStatus(403);
        assertThat(signature()).isEmpty();
    }

    @Test
    void refusesWhatChangedBetweenShowingAndSigningAndShowsItAnew() {
        String token = link();
        MvcTestResult before = get(token);
        assertThat(PageTester.body(before)).doesNotContain("changed after this link was made");
        feeding("NOTHING");

        MvcTestResult refused = post(token, "Ann Lee", drawn(), false, before);
        assertThat(refused).hasStatus(409);
        assertThat(PageTester.body(refused))
                .contains("The visit was changed while you read", "Nothing was signed", "value=\"Ann Lee\"")
                .doesNotContain("data:image/png");
        assertThat(signature()).isEmpty();
        assertThat(PageTester.body(get(token))).contains("changed after this link was made");

        assertThat(post(token, "Ann Lee", drawn(), false, refused)).hasStatus3xxRedirection();
        assertThat(signature().orElseThrow().outdated()).isFalse();
    }

    @Test
    void asksAnewOnceTheVisitChangesAfterItWasSigned() {
        String token = link();
        assertThat(post(token, "Ann Lee", drawn(), false, get(token))).hasStatus3xxRedirection();
        assertThat(pages.post(Role.OFFICE, address(), Map.of()).getResponse().getStatus())
                .isEqualTo(200);
        assertThat(PageTester.body(pages.post(Role.OFFICE, address(), Map.of())))
                .contains("is signed for as it stands");
        feeding("LESS");

        assertThat(signature().orElseThrow().outdated()).isTrue();
        assertThat(office()).contains("Changed after it was signed", "Make a link for signing");
        assertThat(PageTester.body(get(token))).contains("changed since and needs another signature");
        String next = link();
        assertThat(post(next, "Ben Roe", "", true, get(next))).hasStatus3xxRedirection();
        assertThat(signature().orElseThrow().name()).contains("Ben Roe");
        assertThat(signature().orElseThrow().outdated()).isFalse();
    }

    @Test
    void makesOneSignatureOfTwoAtOnce() throws Exception {
        String token = link();
        String shown = reports.inWords(visit()).fingerprint();
        int copies = 4;
        List<Callable<Boolean>> calls = IntStream.range(0, copies)
                .mapToObj(number -> (Callable<Boolean>) () -> {
                    try {
                        signing.sign(token, new SigningByLink.Signed("Guest " + number, null, true, shown));
                        return true;
                    } catch (SignatureLinks.Closed late) {
                        return false;
                    }
                })
                .toList();
        int signed = 0;
        try (var threads = Executors.newFixedThreadPool(copies)) {
            for (Future<Boolean> answer : threads.invokeAll(calls)) {
                signed += answer.get() ? 1 : 0;
            }
        }

        assertThat(signed).isEqualTo(1);
        assertThat(jdbc.sql("select count(*) from visit_entry where visit_id = :visit and kind = 'visit.signature'")
                        .param("visit", stop.visit())
                        .query(Integer.class)
                        .single())
                .isEqualTo(1);
    }

    @Test
    void recordsAtTheTabletThatItIsToComeAndLetsNobodyClaimALinkThatTheyDoNotHold() throws IOException {
        String toCome = "{'state':'TO_COME'}";
        apply("visit.signature", toCome);
        assertThat(signature().orElseThrow().state()).isEqualTo(VisitView.SignatureState.TO_COME);
        assertThat(office()).contains("The client is to sign by link", "Make a link for signing");
        reports.make(visit());
        assertThat(pdf()).contains("to be signed by link");
        String token = link();
        UUID id = jdbc.sql("select id from visit_signature_link where visit_id = :visit")
                .param("visit", stop.visit())
                .query(UUID.class)
                .single();

        EntryAnswer claimed = inbox.take(fixture.entry(
                stop, "visit.signature", "{'state':'SIGNED','name':'Ann Lee','link':'%s'}".formatted(id), toCome));

        assertThat(claimed.status()).isEqualTo(EntryAnswer.Status.REFUSED);
        assertThat(claimed.code()).isEqualTo("visits.signature-link.not-used");
        assertThat(post(token, "Ann Lee", "", true, get(token))).hasStatus3xxRedirection();
        assertThat(signature().orElseThrow().byLink()).isTrue();
    }

    @Test
    void makesNoLinkForAVisitThatGoesOnAndEndsOneThatIsNotNeeded() {
        String token = link();
        apply("visit.signature", "{'state':'SIGNED','name':'Cora Day'}");
        MvcTestResult idle = get(token);
        assertThat(idle).hasStatus(410);
        assertThat(PageTester.body(idle)).contains("Nothing is left to sign", "Cora Day signed for this visit on");

        VisitFixture.Stop open = fixture.stop();
        inbox.take(fixture.entry(open, "visit.start", "{'stop':'%s'}".formatted(open.stop())));
        assertThat(PageTester.body(
                        pages.post(Role.TECHNICIAN, "/visits/" + open.visit() + "/signature-link", Map.of())))
                .contains("is not finished yet");
    }

    @Test
    void sendsALinkByMailThatWorksOnAnotherDeviceAndLiesInNoTable() throws Exception {
        jdbc.sql("update business set email = 'office@example.org'").update();
        for (String who : List.of("one-", "two-")) {
            jdbc.sql("""
                            insert into contact (id, code, client_id, name, email, receives_reports, version)
                            select :id, :code, client_id, 'R. Castellane', :email, true, 1 from site where id = :site
                            """)
                    .param("id", UUID.randomUUID())
                    .param("code", who + stop.visit())
                    .param("email", who + stop.visit() + "@example.org")
                    .param("site", stop.site().value())
                    .update();
        }

        assertThat(pages.post(Role.OFFICE, address() + "/mail", Map.of()))
                .hasRedirectedUrl("/visits/" + stop.visit() + "/report");

        assertThat(SERVER.waitForIncomingEmail(60_000, 2)).isTrue();
        List<String> tokens = new ArrayList<>();
        for (MimeMessage mail : SERVER.getReceivedMessages()) {
            String body = (String) ((MimeMultipart)
                            ((MimeMultipart) mail.getContent()).getBodyPart(0).getContent())
                    .getBodyPart(0)
                    .getContent();
            assertThat(body).containsPattern("https://\\S+/signature/").contains("16 Mar");
            tokens.add(token(body));
        }
        assertThat(tokens).doesNotHaveDuplicates();
        // What lies in the database opens nothing.
        assertThat(jdbc.sql("select body from outgoing_mail where recipient like :to")
                        .param("to", "%" + stop.visit() + "@example.org")
                        .query(String.class)
                        .list())
                .hasSize(2)
                .allSatisfy(kept -> assertThat(kept).doesNotContainPattern(LINK))
                .noneMatch(kept -> tokens.stream().anyMatch(kept::contains));
        MvcTestResult shown = get(tokens.getFirst());
        assertThat(shown).hasStatusOk();
        assertThat(get(tokens.getLast())).hasStatusOk();
        // Whoever is first signs.
        assertThat(post(tokens.getFirst(), "Ann Lee", "", true, shown)).hasStatus3xxRedirection();
        assertThat(get(tokens.getLast())).hasStatus(410);
    }

    @Test
    void saysSoOfASystemThatNothingWasDoneAt() {
        jdbc.sql("""
                        insert into water_system (id, code, site_id, name, kind, infection_class, class_since,
                            volume_basis, net_volume_l, evaporation_l_day, active, version)
                        select :id, :code, site_id, 'Foyer', kind, infection_class, class_since, volume_basis,
                            net_volume_l, evaporation_l_day, true, 0
                        from water_system where id = :like
                        """)
                .param("id", UUID.randomUUID())
                .param("code", "Z-" + stop.visit())
                .param("like", stop.system().value())
                .update();
        jdbc.sql("update visit_entry set counts = false where visit_id = :visit and kind = 'visit.feeding'")
                .param("visit", stop.visit())
                .update();
        assertThat(PageTester.body(get(link()))).contains("Nothing was measured or done here at this visit.");
    }

    private String link() {
        MvcTestResult made = pages.post(Role.OFFICE, address(), Map.of());
        assertThat(made).hasStatusOk();
        String page = PageTester.body(made);
        assertThat(page).contains("At any other device it is", "<code class=\"link-elsewhere\">https://");
        return token(page);
    }

    private static String token(String text) {
        var found = LINK.matcher(text);
        assertThat(found.find()).as("a link in " + text).isTrue();
        return found.group(1);
    }

    private String address() {
        return "/visits/" + stop.visit() + "/signature-link";
    }

    private String office() {
        return pages.page(Role.OFFICE, "/visits/" + stop.visit() + "/report");
    }

    private MvcTestResult get(String token) {
        return mvc.get().uri("/signature/" + token).exchange();
    }

    private MvcTestResult post(String token, String name, String drawing, boolean typed, MvcTestResult shown) {
        return mvc.post()
                .uri("/signature/" + token)
                .with(csrf())
                .param("name", name)
                .param("drawing", drawing)
                .param("typed", Boolean.toString(typed))
                .param("shown", fingerprint(shown))
                .exchange();
    }

    private static String fingerprint(MvcTestResult shown) {
        return PageTester.value(PageTester.body(shown), "shown");
    }

    private VisitId visit() {
        return VisitId.of(stop.visit());
    }

    private Optional<VisitView.Signature> signature() {
        return visits.require(visit()).signature();
    }

    private void feeding(String appetite) {
        String field = "feeding/" + stop.system();
        VisitView visit = visits.find(visit()).orElseThrow();
        String base = Optional.ofNullable(visit.fields().get(field))
                .map(VisitView.Field::body)
                .map(Object::toString)
                .orElse(null);
        EntryAnswer answer = inbox.take(fixture.entry(
                stop, "visit.feeding", "{'system':'%s','appetite':'%s'}".formatted(stop.system(), appetite), base));
        assertThat(answer.status()).isEqualTo(EntryAnswer.Status.APPLIED);
    }

    private void apply(String kind, String body) {
        assertThat(inbox.take(fixture.entry(stop, kind, body)).status()).isEqualTo(EntryAnswer.Status.APPLIED);
    }

    private String pdf() throws IOException {
        byte[] pdf = reports.pdf(visit(), Optional.empty()).content();
        try (var document = Loader.loadPDF(pdf)) {
            return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
        }
    }

    private static String drawn() {
        var bytes = new ByteArrayOutputStream();
        try {
            ImageIO.write(new BufferedImage(100, 40, BufferedImage.TYPE_INT_RGB), "png", bytes);
        } catch (IOException impossible) {
            throw new AssertionError(impossible);
        }
        return "data:image/png;base64," + Base64.getEncoder().encodeToString(bytes.toByteArray());
    }
}
