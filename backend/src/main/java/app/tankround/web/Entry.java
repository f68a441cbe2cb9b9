package app.tankround.web;

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
 * @param deviceTime by the clock of the device, with its offset; the server's own time decides where rules need one
 * @param base the value that the person saw before, where the entry changes one
 * @param author the person's id
 */
public record Entry(
        UUID id,
        String kind,
        Optional<UUID> subject,
        String device,
        long sequence,
        OffsetDateTime deviceTime,
        Optional<JsonNode> base,
        JsonNode body,
        UUID author) {}
