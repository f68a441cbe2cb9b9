package app.tankround.feeds;

import static org.assertj.core.api.Assertions.assertThat;

import biweekly.Biweekly;
import biweekly.ICalendar;
import biweekly.component.Observance;
import biweekly.component.VEvent;
import biweekly.component.VTimezone;
import biweekly.property.DateStart;
import biweekly.util.DateTimeComponents;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What is written is read back by another library. Near a clock change its own instants are hours off, so the times and the
 * clock changes that it read are put together here as RFC 5545 (3.6.5) says: the last change before a time gives its offset.
 */
class CalendarTextTests {

    private static final Instant CHANGED = Instant.parse("2026-11-01T08:00:00Z");

    /** Days of clock changes by the tz database; Lord Howe Island moves its clocks by half an hour. */
    @ParameterizedTest
    @CsvSource({
        "Europe/Dublin,       2026-03-29",
        "Europe/Dublin,       2026-10-25",
        "America/New_York,    2026-03-08",
        "America/New_York,    2026-11-01",
        "Australia/Lord_Howe, 2026-04-05",
        "Australia/Lord_Howe, 2026-10-04",
        "Asia/Kolkata,        2026-10-04",
        "UTC,                 2026-03-29"
    })
    void keepsEveryInstantAroundAClockChange(String id, LocalDate change) {
        ZoneId zone = ZoneId.of(id);
        List<ToldEvent> told = new ArrayList<>();
        List<Instant> starts = new ArrayList<>();
        for (int day = -3; day <= 3; day++) {
            for (int hour : new int[] {0, 3, 4, 9, 23}) {
                LocalDate on = change.plusDays(day);
                LocalTime at = LocalTime.of(hour, 15);
                starts.add(on.atTime(at).atZone(zone).toInstant());
                told.add(told(on, Optional.of(new FeedEvent.Span(at, at.plusMinutes(40))), 0, false));
            }
        }

        ICalendar calendar = Biweekly.parse(CalendarText.of("Van", zone, told)).first();

        assertThat(calendar.getEvents()).hasSameSizeAs(starts);
        for (int i = 0; i < starts.size(); i++) {
            assertThat(instant(calendar, calendar.getEvents().get(i).getDateStart()))
                    .as("%s %s", id, told.get(i).event())
                    .isEqualTo(starts.get(i));
        }
    }

    @Test
    void writesWhatAReaderNeedsToFollowAChange() {
        ToldEvent told = told(
                LocalDate.of(2026, 11, 26),
                Optional.of(new FeedEvent.Span(LocalTime.of(9, 0), LocalTime.of(9, 45))),
                3,
                true);
        String text = CalendarText.of("Van, one; two", ZoneId.of("Europe/Dublin"), List.of(told));
        VEvent event = Biweekly.parse(text).first().getEvents().getFirst();

        assertThat(event.getUid().getValue()).isEqualTo(told.id() + "@tankround");
        assertThat(event.getSequence().getValue()).isEqualTo(3);
        assertThat(event.getStatus().isCancelled()).isTrue();
        assertThat(event.getDateTimeStamp().getValue().toInstant()).isEqualTo(CHANGED);
        assertThat(event.getSummary().getValue()).isEqualTo("Harbour, north; \"quay\"");
        assertThat(event.getDescription().getValue()).isEqualTo("Two\nlines");
        assertThat(text.lines()).allMatch(line -> line.length() <= 75);
        assertThat(text).contains("\r\n").startsWith("BEGIN:VCALENDAR");
    }

    @Test
    void wholeDayHasNoTime() {
        String text = CalendarText.of(
                "Client",
                ZoneId.of("Europe/Dublin"),
                List.of(told(LocalDate.of(2026, 3, 29), Optional.empty(), 0, false)));
        VEvent event = Biweekly.parse(text).first().getEvents().getFirst();
        assertThat(event.getDateStart().getValue().hasTime()).isFalse();
        assertThat(text).contains("DTSTART;VALUE=DATE:20260329", "DTEND;VALUE=DATE:20260330");
    }

    @Test
    void calendarWithoutEventsIsOneAllTheSame() {
        assertThat(Biweekly.parse(CalendarText.of("Van", ZoneId.of("Europe/Dublin"), List.of()))
                        .first()
                        .getEvents())
                .isEmpty();
    }

    private static Instant instant(ICalendar calendar, DateStart start) {
        LocalDateTime local = local(start);
        VTimezone zone = calendar.getTimezoneInfo().getComponents().iterator().next();
        Observance last = Stream.concat(zone.getStandardTimes().stream(), zone.getDaylightSavingsTime().stream())
                .filter(change -> !local(change.getDateStart()).isAfter(local))
                .max(Comparator.comparing(change -> local(change.getDateStart())))
                .orElseThrow();
        return local.toInstant(ZoneOffset.ofTotalSeconds(
                Math.toIntExact(last.getTimezoneOffsetTo().getValue().getMillis() / 1000)));
    }

    private static LocalDateTime local(DateStart start) {
        DateTimeComponents parts = start.getValue().getRawComponents();
        return LocalDateTime.of(
                parts.getYear(),
                parts.getMonth(),
                parts.getDate(),
                parts.getHour(),
                parts.getMinute(),
                parts.getSecond());
    }

    private static ToldEvent told(LocalDate day, Optional<FeedEvent.Span> time, int sequence, boolean cancelled) {
        return new ToldEvent(
                UUID.randomUUID(),
                new FeedEvent(
                        UUID.randomUUID(),
                        day,
                        time,
                        "Harbour, north; \"quay\"",
                        Optional.of("Slip Road Yard, Carrowquill"),
                        Optional.of("Two\nlines")),
                sequence,
                cancelled,
                CHANGED);
    }
}
