package app.tankround.visits;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.readings.Answer;
import app.tankround.readings.Bench;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.Quantity;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.Message;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;

/** A report on its way through the job that sends it, to a mail server of this test's own. */
@SpringBootTest(properties = "db-scheduler.polling-interval=1s")
@IntegrationTest
@Import({Bench.class, TestVisits.class})
class ReportMailTests {

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
    VisitReport reports;

    @Autowired
    TestVisits visits;

    @Autowired
    JdbcClient jdbc;

    @Test
    void sendsAVersionToEachRecipientOnceHoweverOftenItIsAsked() throws Exception {
        TestVisits.Case visit = visits.finished()
                .contact("one@example.org", true)
                .contact("two@example.org", true)
                .contact("not@example.org", false)
                .reading(Quantity.NITRATE, "20", Answer.VALUE);
        jdbc.sql("update business set email = 'office@example.org'").update();
        reports.make(visit.id);
        assertThat(reports.canMail()).isTrue();

        reports.send(visit.id, 1);
        reports.send(visit.id, 1);

        assertThat(SERVER.waitForIncomingEmail(60_000, 2)).isTrue();
        assertThat(jdbc.sql("select count(*) from outgoing_mail")
                        .query(Integer.class)
                        .single())
                .isEqualTo(2);
        assertThat(SERVER.getReceivedMessages())
                .extracting(mail -> mail.getRecipients(Message.RecipientType.TO)[0].toString())
                .containsExactlyInAnyOrder("one@example.org", "two@example.org");
        MimeMessage mail = SERVER.getReceivedMessages()[0];
        assertThat(mail.getSubject()).startsWith("Report V-").endsWith("Bellwether");
        assertThat(mail.getFrom()[0]).hasToString("office@example.org");
        var parts = (MimeMultipart) mail.getContent();
        var attachment = parts.getBodyPart(parts.getCount() - 1);
        assertThat(attachment.getContentType()).startsWith("application/pdf");
        assertThat(attachment.getInputStream().readNBytes(5)).asString().isEqualTo("%PDF-");
        assertThat(reports.deliveries(visit.id)).hasSize(2);
    }
}
