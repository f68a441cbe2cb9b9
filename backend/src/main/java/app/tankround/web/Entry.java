package app.tankround.web;

import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/**
 * One thing that a person did or saw, as the device sent it. Its id is made by the device, so that sending it again is
 * safe.
 *
 * @param kind what it is, such as {@code visit.reading}; the part before the point names its owner
 * @param subject what it is about, such as the visit
 * @param sequence counts the entries of one device
 * @param field that the device entered it in, by the device's name for it; what is entered there later takes its place
 * @param deviceTime by the clock of the device, with its offset; the server's own time decides where rules need one
 * @param clockAhead by how much the device's clock was ahead of the server's when it sent the entry; negative behind it
 * @param base the value that the person saw before, where the entry changes one
 * @param author the person's id
 */
public record Entry(
        UUID id,
        String kind,
        Optional<UUID> subject,
        String device,
        long sequence,
        Optional<String> field,
        OffsetDateTime deviceTime,
        Duration clockAhead,
        Optional<JsonNode> base,
        JsonNode body,
        UUID author) {

    /** What was entered in no field of a device. */
    public Entry(
            UUID id,
            String kind,
            Optional<UUID> subject,
            String device,
            long sequence,
            OffsetDateTime deviceTime,
            Duration clockAhead,
            Optional<JsonNode> base,
            JsonNode body,
            UUID author) {
        this(id, kind, subject, device, sequence, Optional.empty(), deviceTime, clockAhead, base, body, author);
    }

    /** No device is without the server for longer; what claims to be older happened now. */
    private static final Duration OLDEST = Duration.ofDays(14);

    /**
     * When it happened by the server's clock, which says {@code now}: the device's time, less what its clock is ahead. Now,
     * if that lies in the future, or further back than a device can be without the server.
     */
    public Instant happened(Instant now) {
        if (clockAhead.isZero()) {
            return credible(deviceTime.toInstant(), now);
        }
        // How long a message was on its way must not turn the order of what was sent one after the other.
        Instant said = deviceTime.toInstant().minus(clockAhead);
        return said.isAfter(now.minusSeconds(1)) ? now : credible(said, now);
    }

    private static Instant credible(Instant said, Instant now) {
        return !said.isAfter(now) && said.isAfter(now.minus(OLDEST)) ? said : now;
    }
}
