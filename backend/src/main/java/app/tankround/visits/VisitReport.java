package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.clients.ClientService;
import app.tankround.clients.ContactView;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.documents.DocumentVersionView;
import app.tankround.documents.DocumentVersions;
import app.tankround.documents.FileId;
import app.tankround.documents.FileStore;
import app.tankround.documents.Mailer;
import app.tankround.documents.StoredFile;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Answer;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.reports.UnreadablePictureException;
import app.tankround.reports.servicereport.ServiceReport;
import app.tankround.reports.servicereport.ServiceReportPdf;
import app.tankround.visits.report.ReportComposer;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.TextInput;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The client's report of a visit: made as often as needed, every version kept, sent by mail or handed over. */
@Service
public class VisitReport {

    /** Kind of the document versions. */
    public static final String KIND = "service-report";

    private static final int LONGEST_RECIPIENT = 200;

    /** Places in the arguments of the decision. */
    private static final int VERSION_ARGUMENT = 1;

    private static final int RECIPIENTS_ARGUMENT = 2;

    private final VisitService visits;
    private final ReportComposer composer;
    private final DocumentVersions documents;
    private final FileStore files;
    private final Mailer mailer;
    private final SiteService sites;
    private final ClientService clients;
    private final DecisionRegister decisions;
    private final ReadingService readings;
    private final DoubtLists doubts;
    private final BusinessProfile business;
    private final CurrentPerson currentPerson;
    private final MessageSource messages;
    private final JdbcClient jdbc;
    private final Clock clock;

    VisitReport(
            VisitService visits,
            ReportComposer composer,
            DocumentVersions documents,
            FileStore files,
            Mailer mailer,
            SiteService sites,
            ClientService clients,
            DecisionRegister decisions,
            ReadingService readings,
            DoubtLists doubts,
            BusinessProfile business,
            CurrentPerson currentPerson,
            MessageSource messages,
            JdbcClient jdbc,
            Clock clock) {
        this.visits = visits;
        this.composer = composer;
        this.documents = documents;
        this.files = files;
        this.mailer = mailer;
        this.sites = sites;
        this.clients = clients;
        this.decisions = decisions;
        this.readings = readings;
        this.doubts = doubts;
        this.business = business;
        this.currentPerson = currentPerson;
        this.messages = messages;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** How a report reached somebody. */
    public enum Way {
        MAIL,
        BY_HAND
    }

    /**
     * A version that went to somebody.
     *
     * @param version number of the version
     * @param recipient mail address, or the name of whoever took it
     */
    public record Delivery(int version, Way way, String recipient, Instant at) {}

    /**
     * Makes the next version from what is known of the visit now.
     *
     * @return its number, from 1
     * @throws FieldRefusal if the visit is not finished, a photo is not here yet, or a picture cannot be opened
     */
    @Transactional
    public int make(VisitId id) {
        VisitView visit = visits.require(id);
        if (!visit.finished()) {
            throw new FieldRefusal("", "report.visit-open", visit.code());
        }
        long missing = visit.photos().stream().filter(photo -> !photo.arrived()).count();
        if (missing > 0) {
            throw new FieldRefusal("", "report.photos-missing", missing);
        }
        int number = documents.nextNumber(KIND, id.value());
        ServiceReport report = composer.compose(visit, number, replaced(id), clock.instant());
        FileId file = files.store(visit.code() + "-" + number + ".pdf", "application/pdf", written(report));
        return documents.add(KIND, id.value(), file);
    }

    /**
     * What a client signs for, as things stand now.
     *
     * @throws NotFound if there is no such visit
     */
    @Transactional(readOnly = true)
    public VisitInWords inWords(VisitId id) {
        return composer.inWords(visits.require(id));
    }

    /** The newest version that went to somebody; where none did, the newest. */
    private Optional<ReportComposer.Replaced> replaced(VisitId id) {
        List<Integer> sent = deliveries(id).stream().map(Delivery::version).toList();
        List<DocumentVersionView> made = versions(id);
        return made.stream()
                .filter(version -> sent.contains(version.number()))
                .findFirst()
                .or(() -> made.stream().findFirst())
                .map(version -> new ReportComposer.Replaced(version.number(), version.madeAt()));
    }

    /** Whether its newest version says of a reading what is not thought of it any more, or leaves one out. */
    @Transactional(readOnly = true)
    public boolean isOvertaken(VisitId id) {
        return versions(id).stream()
                .findFirst()
                .map(newest -> {
                    List<ReadingView> quoted = visits.require(id).systems().stream()
                            .flatMap(work -> work.readings().stream())
                            .filter(reading -> reading.answer() != Answer.NOT_MEASURED)
                            .toList();
                    Map<ReadingId, AssessmentView> then = readings.assessedAt(
                            quoted.stream().map(ReadingView::id).toList(), newest.madeAt());
                    return quoted.stream()
                            .anyMatch(reading -> !Optional.ofNullable(then.get(reading.id()))
                                    .filter(reading.assessment()::saysTheSame)
                                    .isPresent());
                })
                .orElse(false);
    }

    /**
     * Versions that went to somebody and quote readings that came into doubt since.
     *
     * @param recipients as they were named
     * @param ended whether a person has settled it
     */
    public record Doubted(int version, String recipients, String page, boolean ended) {}

    /** Newest first. */
    @Transactional(readOnly = true)
    public List<Doubted> doubted(VisitId id) {
        return doubts.about("visit", id.value()).stream()
                .map(line -> {
                    List<String> args = line.decision().orElseThrow().args();
                    return new Doubted(
                            Integer.parseInt(args.get(VERSION_ARGUMENT)),
                            args.get(RECIPIENTS_ARGUMENT),
                            "/doubts/" + line.listId() + "/lines/" + line.id(),
                            line.ending().isPresent());
                })
                .sorted(Comparator.comparingInt(Doubted::version).reversed())
                .toList();
    }

    private byte[] written(ServiceReport report) {
        try {
            return new ServiceReportPdf(composer.labels()).write(report);
        } catch (UnreadablePictureException unreadable) {
            throw new FieldRefusal("", "report.picture-unreadable");
        }
    }

    /** All versions, newest first. */
    @Transactional(readOnly = true)
    public List<DocumentVersionView> versions(VisitId id) {
        return documents.all(KIND, id.value());
    }

    /**
     * The file of a version, the newest without a number.
     *
     * @throws NotFound if there is none
     */
    @Transactional(readOnly = true)
    public StoredFile pdf(VisitId id, Optional<Integer> version) {
        return versions(id).stream()
                .filter(made -> version.isEmpty() || made.number() == version.get())
                .findFirst()
                .map(made -> files.require(made.fileId()))
                .orElseThrow(() -> new NotFound(KIND, id));
    }

    /** Whether reports can be mailed from here. */
    public boolean canMail() {
        return mailer.isSetUp();
    }

    /** Mail addresses of the client's contacts who receive reports. */
    @Transactional(readOnly = true)
    public List<String> recipients(VisitId id) {
        SiteView site = sites.require(visits.require(id).siteId());
        return site.clientId().map(clients::contacts).orElse(List.of()).stream()
                .filter(ContactView::receivesReports)
                .flatMap(contact -> contact.email().stream())
                .distinct()
                .toList();
    }

    /** To whom it went, newest first. */
    @Transactional(readOnly = true)
    public List<Delivery> deliveries(VisitId id) {
        return jdbc.sql("""
                        select version_number, way, recipient, delivered_at
                        from report_delivery
                        where visit_id = :visit
                        order by delivered_at desc, recipient
                        """)
                .param("visit", id.value())
                .query((row, number) -> new Delivery(
                        row.getInt("version_number"),
                        Way.valueOf(row.getString("way")),
                        row.getString("recipient"),
                        row.getObject("delivered_at", OffsetDateTime.class).toInstant()))
                .list();
    }

    /**
     * Queues a version for mail to everybody who receives reports. Sent again, nobody gets the same version twice.
     *
     * @throws FieldRefusal if nobody receives reports or mail is not set up; nothing is queued then
     * @throws NotFound if there is no such version
     */
    @Transactional
    public void send(VisitId id, int version) {
        VisitView visit = visits.require(id);
        DocumentVersionView made = require(id, version);
        List<String> recipients = recipients(id);
        if (recipients.isEmpty()) {
            throw new FieldRefusal("", "report.nobody-receives");
        }
        if (!mailer.isSetUp()) {
            throw new FieldRefusal("", "documents.mail-not-set-up");
        }
        List<String> fresh = recipients.stream()
                .filter(recipient -> isNew(id, version, Way.MAIL, recipient))
                .toList();
        BusinessSettings settings = business.current();
        Locale locale = settings.locale();
        String name = settings.name();
        String site = sites.require(visit.siteId()).name();
        fresh.forEach(recipient -> mailer.queue(
                recipient,
                messages.getMessage("report.mail.subject", new Object[] {visit.code(), site, name}, locale),
                messages.getMessage("report.mail.body", new Object[] {visit.code(), site, name}, locale),
                Optional.of(made.fileId())));
        register(visit, version, fresh);
    }

    /**
     * Records that somebody was given a version on paper or otherwise. Recorded again, it stays one.
     *
     * @param recipient who took it, 1 to 200 characters
     * @throws FieldRefusal at {@code recipient} if nobody is named
     * @throws NotFound if there is no such version
     */
    @Transactional
    public void handOver(VisitId id, int version, @Nullable String recipient) {
        VisitView visit = visits.require(id);
        require(id, version);
        String name = TextInput.required("recipient", recipient, LONGEST_RECIPIENT);
        if (isNew(id, version, Way.BY_HAND, name)) {
            register(visit, version, List.of(name));
        }
    }

    private DocumentVersionView require(VisitId id, int version) {
        return versions(id).stream()
                .filter(made -> made.number() == version)
                .findFirst()
                .orElseThrow(() -> new NotFound(KIND, id + " version " + version));
    }

    private boolean isNew(VisitId id, int version, Way way, String recipient) {
        Instant now = clock.instant();
        return jdbc.sql("""
                                insert into report_delivery
                                    (id, visit_id, version_number, way, recipient, delivered_by, delivered_at)
                                values (:id, :visit, :version, :way, :recipient, :person, :at)
                                on conflict (visit_id, version_number, way, recipient) do nothing
                                """)
                        .param("id", Uuids.next(now))
                        .param("visit", id.value())
                        .param("version", version)
                        .param("way", way.name())
                        .param("recipient", recipient)
                        .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                        .param("at", now.atOffset(ZoneOffset.UTC))
                        .update()
                > 0;
    }

    /**
     * Whoever reads the report relies on its readings, so that later doubt about one must find it. A version that says
     * itself that a reading is in doubt misleads nobody about it.
     */
    private void register(VisitView visit, int version, List<String> recipients) {
        if (recipients.isEmpty()) {
            return;
        }
        List<ReadingId> quoted = visit.systems().stream()
                .flatMap(work -> work.readings().stream())
                .filter(reading -> reading.answer() != Answer.NOT_MEASURED)
                .map(ReadingView::id)
                .toList();
        Instant madeAt = require(visit.id(), version).madeAt();
        Map<ReadingId, AssessmentView> then = readings.assessedAt(quoted, madeAt);
        List<ReadingId> relied = quoted.stream()
                .filter(reading -> Optional.ofNullable(then.get(reading))
                        .filter(AssessmentView::doubtful)
                        .isEmpty())
                .toList();
        UUID subject = visit.id().value();
        decisions.register(
                "report-sent",
                "visit",
                subject,
                "/visits/" + visit.id() + "/report",
                "report.decision",
                List.of(visit.code(), Integer.toString(version), String.join(", ", recipients)),
                relied);
    }
}
