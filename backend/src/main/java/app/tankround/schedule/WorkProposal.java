package app.tankround.schedule;

import app.tankround.tanks.WaterSystemId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.time.LocalDate;
import java.util.UUID;

/**
 * Work that is due beside the agreed visits.
 *
 * @param source where it comes from
 * @param reason why, in words, 1 to 300 characters; it is what the technician reads
 * @param earliest the first day on which it can be done
 * @param latest the last one
 */
public record WorkProposal(
        UUID id, WaterSystemId system, Source source, String reason, LocalDate earliest, LocalDate latest) {

    /** Where work comes from that nobody agreed on beforehand. */
    public enum Source {
        /** A quantity is measured again. */
        RETEST,
        /** Something was mended, or is to be. */
        REPAIR,
        OTHER
    }

    private static final int MOST_DAYS = 370;

    /** Refuses, naming the field, a missing reason and a window that ends before it starts or lasts longer than a year. */
    public WorkProposal {
        reason = TextInput.required("reason", reason, 300);
        if (latest.isBefore(earliest)) {
            throw new FieldRefusal("latest", "schedule.proposal.latest-before", latest, earliest);
        }
        if (latest.isAfter(earliest.plusDays(MOST_DAYS))) {
            throw new FieldRefusal("latest", "schedule.out-of-range", latest, earliest, earliest.plusDays(MOST_DAYS));
        }
    }
}
