package app.tankround.documents;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import com.github.kagkarlsson.scheduler.SchedulerClient;
import com.github.kagkarlsson.scheduler.task.TaskInstance;
import jakarta.mail.MessagingException;
import java.sql.Timestamp;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import java.util.regex.Pattern;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.core.io.ByteArrayResource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.mail.javamail.JavaMailSender;
import org.springframework.mail.javamail.MimeMessageHelper;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Sends mail after the transaction that asked for it: the row and the job are written with it, the job may run twice and
 * sends once.
 */
@Service
public class Mailer {

    static final String TASK = "send-mail";

    /** Good enough to catch a slip; only the receiving server knows whether an address exists. */
    private static final Pattern ADDRESS = Pattern.compile("[^\\s@<>,;]+@[^\\s@<>,;]+\\.[^\\s@<>,;]+");

    private final JdbcClient jdbc;
    private final Clock clock;
    private final CurrentPerson currentPerson;
    private final BusinessProfile profile;
    private final FileStore files;
    private final JavaMailSender sender;
    private final String host;
    private final ObjectProvider<SchedulerClient> scheduler;
    private final ObjectProvider<MailSecrets> secrets;

    Mailer(
            JdbcClient jdbc,
            Clock clock,
            CurrentPerson currentPerson,
            BusinessProfile profile,
            FileStore files,
            JavaMailSender sender,
            @Value("${spring.mail.host}") String host,
            ObjectProvider<SchedulerClient> scheduler,
            ObjectProvider<MailSecrets> secrets) {
        this.jdbc = jdbc;
        this.clock = clock;
        this.currentPerson = currentPerson;
        this.profile = profile;
        this.files = files;
        this.sender = sender;
        this.host = host;
        this.scheduler = scheduler;
        this.secrets = secrets;
    }

    /** Whether a mail server is set up ({@code spring.mail.host}) and the business has an address to send from. */
    public boolean isSetUp() {
        return !host.isBlank()
                && profile.find().flatMap(BusinessSettings::email).isPresent();
    }

    /**
     * An address as mail can be sent to it.
     *
     * @throws FieldRefusal for one that cannot be one
     */
    public static String address(String field, String typed) {
        String address = typed.strip();
        if (!ADDRESS.matcher(address).matches()) {
            throw new FieldRefusal(field, "documents.address-malformed", address);
        }
        return address;
    }

    /**
     * Queues a mail with an optional file.
     *
     * @throws FieldRefusal for an address that cannot be one, or where mail is not set up
     */
    @Transactional
    public void queue(String recipient, String subject, String body, Optional<FileId> file) {
        queue(recipient, subject, body, file, Optional.empty());
    }

    /**
     * Queues a mail with a secret.
     *
     * @param body with {@link MailSecrets#PLACE} where the secret will be
     * @param about what {@link MailSecrets} makes the secret for
     * @throws FieldRefusal as {@link #queue}
     */
    @Transactional
    public void queueWithSecret(String recipient, String subject, String body, UUID about) {
        queue(recipient, subject, body, Optional.empty(), Optional.of(about));
    }

    private void queue(
            String recipient, String subject, String body, Optional<FileId> file, Optional<UUID> secretAbout) {
        String address = address("recipient", recipient);
        if (!isSetUp()) {
            throw new FieldRefusal("recipient", "documents.mail-not-set-up");
        }
        Instant now = clock.instant();
        UUID id = Uuids.next(now);
        jdbc.sql("""
                        insert into outgoing_mail (id, recipient, subject, body, file_id, secret_about, queued_by, queued_at)
                        values (:id, :recipient, :subject, :body, :file, :about, :person, :now)
                        """)
                .param("id", id)
                .param("recipient", address)
                .param("subject", subject)
                .param("body", body)
                .param("file", file.map(FileId::value).orElse(null), Types.OTHER)
                .param("about", secretAbout.orElse(null), Types.OTHER)
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param("now", Timestamp.from(now))
                .update();
        scheduler.getObject().scheduleIfNotExists(new TaskInstance<>(TASK, id.toString()), now);
    }

    /** Sends a queued mail unless it has left already. The row stays locked while it leaves. */
    @Transactional
    void send(UUID id) {
        record Mail(String recipient, String subject, String body, Optional<FileId> file, Optional<UUID> secretAbout) {}
        Optional<Mail> waiting = jdbc.sql("""
                        select recipient, subject, body, file_id, secret_about from outgoing_mail
                        where id = :id and sent_at is null and failure is null
                        for update
                        """)
                .param("id", id)
                .query((row, number) -> new Mail(
                        row.getString("recipient"),
                        row.getString("subject"),
                        row.getString("body"),
                        Optional.ofNullable(row.getObject("file_id", UUID.class))
                                .map(FileId::of),
                        Optional.ofNullable(row.getObject("secret_about", UUID.class))))
                .optional();
        if (waiting.isEmpty()) {
            return;
        }
        Mail mail = waiting.get();
        Optional<String> body = mail.secretAbout().isEmpty()
                ? Optional.of(mail.body())
                : secrets.getObject()
                        .forMail(mail.secretAbout().get())
                        .map(secret -> mail.body().replace(MailSecrets.PLACE, secret));
        if (body.isEmpty()) {
            jdbc.sql("update outgoing_mail set failure = 'not needed any more' where id = :id")
                    .param("id", id)
                    .update();
            return;
        }
        var message = sender.createMimeMessage();
        try {
            var helper = new MimeMessageHelper(message, true, "UTF-8");
            helper.setFrom(profile.current().email().orElseThrow());
            helper.setTo(mail.recipient());
            helper.setSubject(mail.subject());
            helper.setText(body.get());
            if (mail.file().isPresent()) {
                StoredFile file = files.require(mail.file().get());
                helper.addAttachment(file.name(), new ByteArrayResource(file.content()), file.mediaType());
            }
        } catch (MessagingException malformed) {
            throw new IllegalStateException(malformed);
        }
        sender.send(message);
        jdbc.sql("update outgoing_mail set sent_at = :now where id = :id")
                .param("now", Timestamp.from(clock.instant()))
                .param("id", id)
                .update();
    }
}
