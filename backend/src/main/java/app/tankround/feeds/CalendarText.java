package app.tankround.feeds;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.zone.ZoneOffsetTransition;
import java.util.List;
import net.fortuna.ical4j.data.CalendarOutputter;
import net.fortuna.ical4j.model.Calendar;
import net.fortuna.ical4j.model.ParameterList;
import net.fortuna.ical4j.model.component.Daylight;
import net.fortuna.ical4j.model.component.Observance;
import net.fortuna.ical4j.model.component.Standard;
import net.fortuna.ical4j.model.component.VEvent;
import net.fortuna.ical4j.model.component.VTimeZone;
import net.fortuna.ical4j.model.parameter.TzId;
import net.fortuna.ical4j.model.property.Description;
import net.fortuna.ical4j.model.property.DtEnd;
import net.fortuna.ical4j.model.property.DtStamp;
import net.fortuna.ical4j.model.property.DtStart;
import net.fortuna.ical4j.model.property.LastModified;
import net.fortuna.ical4j.model.property.Location;
import net.fortuna.ical4j.model.property.ProdId;
import net.fortuna.ical4j.model.property.Sequence;
import net.fortuna.ical4j.model.property.Summary;
import net.fortuna.ical4j.model.property.TzOffsetFrom;
import net.fortuna.ical4j.model.property.TzOffsetTo;
import net.fortuna.ical4j.model.property.Uid;
import net.fortuna.ical4j.model.property.XProperty;
import net.fortuna.ical4j.model.property.immutable.ImmutableCalScale;
import net.fortuna.ical4j.model.property.immutable.ImmutableMethod;
import net.fortuna.ical4j.model.property.immutable.ImmutableStatus;
import net.fortuna.ical4j.model.property.immutable.ImmutableVersion;

/** Writes events as an iCalendar (RFC 5545). Nothing in it depends on when it is written. */
final class CalendarText {

    private CalendarText() {}

    /**
     * @param zone the business's, in which the times of the events are; it is described by the clock changes around them,
     *     so that a reader needs no table of its own
     */
    static String of(String name, ZoneId zone, List<ToldEvent> events) {
        Calendar calendar = new Calendar();
        calendar.add(new ProdId("-//Tankround//Calendar//EN"));
        calendar.add(ImmutableVersion.VERSION_2_0);
        calendar.add(ImmutableCalScale.GREGORIAN);
        calendar.add(ImmutableMethod.PUBLISH);
        calendar.add(new XProperty("X-WR-CALNAME", name));
        if (!events.isEmpty()) {
            calendar.add(describe(zone, events));
        }
        events.forEach(told -> calendar.add(event(zone, told)));
        StringWriter text = new StringWriter();
        try {
            new CalendarOutputter(false).output(calendar, text);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }

    private static VEvent event(ZoneId zone, ToldEvent told) {
        FeedEvent said = told.event();
        VEvent event = new VEvent(false);
        event.add(new Uid(told.id() + "@tankround"));
        event.add(new DtStamp(told.changedAt()));
        event.add(new LastModified(told.changedAt()));
        event.add(new Sequence(told.sequence()));
        if (said.time().isPresent()) {
            ZonedDateTime starts = at(said.day(), said.time().get().starts(), zone);
            ZonedDateTime ends = at(said.day(), said.time().get().ends(), zone);
            event.add(new DtStart<>(local(zone), starts.toLocalDateTime()));
            event.add(
                    new DtEnd<>(local(zone), (ends.isAfter(starts) ? ends : starts.plusMinutes(1)).toLocalDateTime()));
        } else {
            event.add(new DtStart<>(said.day()));
            event.add(new DtEnd<>(said.day().plusDays(1)));
        }
        event.add(new Summary(said.summary()));
        said.location().ifPresent(place -> event.add(new Location(place)));
        said.description().ifPresent(words -> event.add(new Description(words)));
        event.add(told.cancelled() ? ImmutableStatus.VEVENT_CANCELLED : ImmutableStatus.VEVENT_CONFIRMED);
        return event;
    }

    /**
     * A time of a day in a zone. One that a clock change leaves out takes the offset before it, and of one that comes twice
     * the first is meant (RFC 5545, 3.3.5).
     */
    static ZonedDateTime at(LocalDate day, LocalTime time, ZoneId zone) {
        return day.atTime(time).atZone(zone);
    }

    private static ParameterList local(ZoneId zone) {
        return new ParameterList(List.of(new TzId(zone.getId())));
    }

    private static VTimeZone describe(ZoneId zone, List<ToldEvent> events) {
        LocalDate first = events.stream()
                .map(told -> told.event().day())
                .min(LocalDate::compareTo)
                .orElseThrow();
        LocalDate last = events.stream()
                .map(told -> told.event().day())
                .max(LocalDate::compareTo)
                .orElseThrow();
        VTimeZone described = new VTimeZone();
        described.add(new net.fortuna.ical4j.model.property.TzId(zone.getId()));
        Instant from = first.minusDays(1).atStartOfDay(zone).toInstant();
        described.add(observance(
                zone, from, zone.getRules().getOffset(from), zone.getRules().getOffset(from)));
        ZoneOffsetTransition change = zone.getRules().nextTransition(from);
        while (change != null
                && change.getInstant()
                        .isBefore(last.plusDays(2).atStartOfDay(zone).toInstant())) {
            described.add(observance(zone, change.getInstant(), change.getOffsetBefore(), change.getOffsetAfter()));
            change = zone.getRules().nextTransition(change.getInstant());
        }
        return described;
    }

    /** From that instant on; its start is written in the time before it, as the standard wants. */
    private static Observance observance(ZoneId zone, Instant from, ZoneOffset before, ZoneOffset after) {
        Observance observance = zone.getRules().isDaylightSavings(from) ? new Daylight() : new Standard();
        observance.add(new DtStart<>(LocalDateTime.ofInstant(from, before)));
        observance.add(new TzOffsetFrom(before));
        observance.add(new TzOffsetTo(after));
        return observance;
    }
}
