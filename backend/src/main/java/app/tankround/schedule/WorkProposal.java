package app.tankround.schedule;

import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.Optional;
import java.util.UUID;

/**
 * Work that is due beside the agreed visits.
 *
 * @param source where it comes from
 * @param reason why, in words, 1 to 300 characters; it is what the technician reads
 * @param earliest the first day on which it can be done
 * @param latest the last one
 * @param minutes how long it takes at the site, 0 to 480; they count for the visit that it goes with
 * @param measures what is measured for it, so that what that takes goes along
 * @param page where to see what it comes from; empty exactly where a person proposed it
 */
public record WorkProposal(
        UUID id,
        WaterSystemId system,
        Source source,
        String reason,
        LocalDate earliest,
        LocalDate latest,
        int minutes,
        Optional<Quantity> measures,
        Optional<String> page) {

    /** Where work comes from that nobody agreed on beforehand. */
    public enum Source {
        /** A quantity is measured again. */
        RETEST,
        /** Something was mended, or is to be. */
        REPAIR,
        /** The step of a corrective plan for which no visit is agreed. */
        PLAN,
        /** The next dose of a treatment, or what is left of the last one. */
        TREATMENT,
        /** What is looked at before a quarantine ends. */
        QUARANTINE,
        /** What somebody left off, open or not in order at the end of a visit. */
        LEFT_BEHIND,
        OTHER
    }

    public static final int MOST_MINUTES = 480;

    private static final int MOST_DAYS = 370;
    private static final int LONGEST_REASON = 300;

    /**
     * Refuses, naming the field, a missing reason, minutes out of range, and a window that ends before it starts or lasts
     * longer than a year.
     */
    public WorkProposal {
        reason = TextInput.required("reason", reason, LONGEST_REASON);
        if (latest.isBefore(earliest)) {
            throw new FieldRefusal("latest", "schedule.proposal.latest-before", latest, earliest);
        }
        if (latest.isAfter(earliest.plusDays(MOST_DAYS))) {
            throw new FieldRefusal("latest", "schedule.out-of-range", latest, earliest, earliest.plusDays(MOST_DAYS));
        }
        if (minutes < 0 || minutes > MOST_MINUTES) {
            throw new FieldRefusal("minutes", "web.number-out-of-range", minutes, 0, MOST_MINUTES);
        }
    }

    /**
     * What a part of the program knows of.
     *
     * @param topic names the matter: the same topic is the same proposal, however often and by whomever it is said
     * @param reason cut where it is too long to be read at a tank
     * @param page where to see what it comes from
     */
    public static WorkProposal of(
            String topic,
            String page,
            WaterSystemId system,
            Source source,
            String reason,
            LocalDate earliest,
            LocalDate latest,
            int minutes) {
        return new WorkProposal(
                UUID.nameUUIDFromBytes(topic.getBytes(StandardCharsets.UTF_8)),
                system,
                source,
                reason.length() > LONGEST_REASON ? reason.substring(0, LONGEST_REASON - 1) + "…" : reason,
                earliest,
                latest,
                minutes,
                Optional.empty(),
                Optional.of(page));
    }

    public WorkProposal measuring(Quantity quantity) {
        return new WorkProposal(id, system, source, reason, earliest, latest, minutes, Optional.of(quantity), page);
    }
}
