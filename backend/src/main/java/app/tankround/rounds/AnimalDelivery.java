package app.tankround.rounds;

import app.tankround.schedule.PlannedVisitId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.UUID;

/**
 * Live animals that go along to a due visit. The hours since packing count, wherever the bag is; how many it is good for
 * depends on animals, bag and oxygen, so whoever packed says so: there is no default.
 *
 * @param what the animals, in words, 1 to 200 characters
 * @param bagMinutes for how long from packing on the bag is good, 30 minutes to 72 hours
 * @param acclimationMinutes from opening the box until they are in the water, 0 to 480; part of the stop
 */
public record AnimalDelivery(
        UUID id, PlannedVisitId visit, String what, Instant packedAt, int bagMinutes, int acclimationMinutes) {

    public static final int LEAST_BAG_MINUTES = 30;
    public static final int MOST_BAG_MINUTES = 72 * 60;
    public static final int MOST_ACCLIMATION_MINUTES = 480;

    /** Floating the bag for 15 to 30 minutes is common practice, no source. */
    public static final int USUAL_ACCLIMATION_MINUTES = 30;

    private static final int MINUTES_OF_DAY = 1440;

    /** Refuses, naming the field, values outside the ranges above. */
    public AnimalDelivery {
        what = TextInput.required("what", what, 200);
        if (bagMinutes < LEAST_BAG_MINUTES || bagMinutes > MOST_BAG_MINUTES) {
            throw new FieldRefusal("bagHours", "rounds.animals.bag-range", bagMinutes / 60.0, 0.5, 72);
        }
        if (acclimationMinutes < 0 || acclimationMinutes > MOST_ACCLIMATION_MINUTES) {
            throw new FieldRefusal(
                    "acclimationMinutes",
                    "rounds.animals.acclimation-range",
                    acclimationMinutes,
                    0,
                    MOST_ACCLIMATION_MINUTES);
        }
    }

    public Instant goodUntil() {
        return packedAt.plus(Duration.ofMinutes(bagMinutes));
    }

    /** Whether they are packed by the end of a day and the bag is still good at its beginning. */
    boolean canArriveOn(LocalDate day, ZoneId zone) {
        return packedAt.isBefore(day.plusDays(1).atStartOfDay(zone).toInstant())
                && goodUntil().isAfter(day.atStartOfDay(zone).toInstant());
    }

    /** The minute of a day until which the bag is good: 0 where it no longer is, 1440 where it is all day. */
    int lastMinute(LocalDate day, ZoneId zone) {
        LocalDateTime until = goodUntil().atZone(zone).toLocalDateTime();
        if (until.toLocalDate().isBefore(day)) {
            return 0;
        }
        return until.toLocalDate().isAfter(day) ? MINUTES_OF_DAY : until.getHour() * 60 + until.getMinute();
    }
}
