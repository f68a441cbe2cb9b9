package app.tankround.tablet;

import app.tankround.accounts.Days;
import app.tankround.documents.FileId;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.Uuids;
import app.tankround.visits.SignatureLink;
import app.tankround.visits.SignatureLinks;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitInWords;
import app.tankround.visits.VisitReport;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** A client signs through a link: an entry like any other, in the name of whoever made the link. */
@Service
public class SigningByLink {

    /** The most characters that a drawing may have as it is sent: some 300 KB of picture. */
    static final int MOST_DRAWN = 400_000;

    private static final String DRAWN = "data:image/png;base64,";

    private final SignatureLinks links;
    private final VisitReport reports;
    private final VisitService visits;
    private final Photos photos;
    private final EntryInbox inbox;
    private final RecordLock lock;
    private final JsonMapper json;
    private final Days days;
    private final Clock clock;

    SigningByLink(
            SignatureLinks links,
            VisitReport reports,
            VisitService visits,
            Photos photos,
            EntryInbox inbox,
            RecordLock lock,
            JsonMapper json,
            Days days,
            Clock clock) {
        this.links = links;
        this.reports = reports;
        this.visits = visits;
        this.photos = photos;
        this.inbox = inbox;
        this.lock = lock;
        this.json = json;
        this.days = days;
        this.clock = clock;
    }

    /** What was signed is not what stands now. */
    public static final class Changed extends RuntimeException {

        private static final long serialVersionUID = 1L;
    }

    /**
     * What the holder of a link sent.
     *
     * @param drawing a PNG as a {@code data:} address; blank where nothing was drawn
     * @param typed whether the name stands for a signature where nothing was drawn
     * @param shown fingerprint of what was read before signing
     */
    public record Signed(
            @Nullable String name,
            @Nullable String drawing,
            boolean typed,
            @Nullable String shown) {}

    /** What stands behind a link. */
    public record Behind(SignatureLink link, VisitInWords visit, Optional<VisitView.Signature> signature) {

        /** Whether something changed between the making of the link and now. */
        public boolean changedSince() {
            return !link.shown().equals(visit.fingerprint());
        }
    }

    @Transactional(readOnly = true)
    public Optional<Behind> find(String token) {
        return links.find(token)
                .map(link -> new Behind(
                        link,
                        reports.inWords(link.visit()),
                        visits.require(link.visit()).signature()));
    }

    /**
     * Uses the link up and writes the signature down, both or neither.
     *
     * @throws FieldRefusal at {@code name} or {@code drawing}
     * @throws SignatureLinks.Closed if the link is used, replaced, too old or unknown
     * @throws Changed if the visit is not what was shown any more
     */
    @Transactional
    public void sign(String token, Signed signed) {
        String name = TextInput.required("name", signed.name(), SignatureLinks.LONGEST_NAME);
        Optional<byte[]> drawn = drawn(signed.drawing());
        if (drawn.isEmpty() && !signed.typed()) {
            throw new FieldRefusal("drawing", "tablet.by-link.not-signed");
        }
        Instant now = clock.instant();
        UUID id = Uuids.next(now);
        lock.hold("entry " + id);
        SignatureLink link = links.use(token, id);
        if (!reports.inWords(link.visit()).fingerprint().equals(signed.shown())) {
            throw new Changed();
        }
        ObjectNode body = json.createObjectNode()
                .put("state", VisitView.SignatureState.SIGNED.name())
                .put("name", name)
                .put("link", link.id().toString());
        drawn.ifPresent(picture -> body.put("drawing", stored(picture).toString()));
        EntryAnswer answer = inbox.take(new Entry(
                id,
                "visit.signature",
                Optional.of(link.visit().value()),
                "signature-link/" + link.id(),
                1,
                now.atZone(days.zone()).toOffsetDateTime(),
                Duration.ZERO,
                before(link.visit()),
                body,
                link.madeBy().value()));
        if (answer.status() != EntryAnswer.Status.APPLIED) {
            throw new EntriesRefused(answer);
        }
    }

    private Optional<JsonNode> before(VisitId visit) {
        return Optional.ofNullable(visits.require(visit).fields().get("signature"))
                .map(VisitView.Field::body);
    }

    private FileId stored(byte[] picture) {
        FileId id = FileId.of(Uuids.next(clock.instant()));
        try {
            photos.store(id, picture);
        } catch (FieldRefusal refused) {
            throw new FieldRefusal("drawing", refused.code(), refused.args().toArray());
        }
        return id;
    }

    private static Optional<byte[]> drawn(@Nullable String sent) {
        if (sent == null || sent.isBlank()) {
            return Optional.empty();
        }
        if (sent.length() > MOST_DRAWN) {
            throw new FieldRefusal("drawing", "tablet.by-link.drawing-too-large", sent.length(), MOST_DRAWN);
        }
        if (!sent.startsWith(DRAWN)) {
            throw new FieldRefusal("drawing", "tablet.photo-not-an-image");
        }
        try {
            return Optional.of(Base64.getDecoder().decode(sent.substring(DRAWN.length())));
        } catch (IllegalArgumentException malformed) {
            throw new FieldRefusal("drawing", "tablet.photo-not-an-image");
        }
    }
}
