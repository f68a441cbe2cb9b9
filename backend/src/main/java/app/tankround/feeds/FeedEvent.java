package app.tankround.feeds;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;
import java.util.UUID;

/**
 * What a calendar says of one stop or visit.
 *
 * @param visitId the first of the planned visits that it is for, by which it is known again on another day
 * @param time empty for a whole day
 */
record FeedEvent(
        UUID visitId,
        LocalDate day,
        Optional<Span> time,
        String summary,
        Optional<String> location,
        Optional<String> description) {

    /** From one time of the day to another, in the business's zone. */
    record Span(LocalTime starts, LocalTime ends) {}
}
