package app.tankround.rounds;

import app.tankround.clients.SiteView;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.rounds.ArrivalPromises.ToldTimes;
import app.tankround.rounds.DayRepairs.Appointment;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** Who has to be told that somebody comes at another time than promised, or on another day, and the matters opened for it. */
@Component
class ToldChanges {

    private final Followups followups;

    ToldChanges(Followups followups) {
        this.followups = followups;
    }

    /** Whether another start keeps what was promised: the times told, or about the time planned where nobody was told any. */
    static boolean keeps(Optional<ToldTimes> told, LocalTime before, LocalTime now) {
        return told.map(times -> times.keeps(now))
                .orElseGet(() -> Duration.between(before, now).abs().compareTo(DayRepairs.PROMISE) <= 0);
    }

    /** Opens the matter of telling a site; what was opened for that day before is replaced. */
    void tell(LocalDate date, SiteView site, Optional<Appointment> before, Optional<Appointment> now) {
        List<String> arguments = new ArrayList<>(List.of(site.title(), day(date)));
        before.ifPresent(was -> arguments.add(clock(was.starts())));
        now.ifPresent(will -> {
            arguments.add(clock(will.starts()));
            arguments.add(will.van().name());
        });
        String inPlace = before.isPresent() ? "rounds.followup.moved" : "rounds.followup.added";
        open(date, site, now.isPresent() ? inPlace : "rounds.followup.left-out", arguments);
    }

    /** The same where somebody comes on another day instead. */
    void tellOtherDay(LocalDate date, SiteView site, Appointment before, LocalDate instead, Appointment now) {
        open(
                date,
                site,
                "rounds.followup.other-day",
                List.of(
                        site.title(),
                        day(date),
                        clock(before.starts()),
                        day(instead),
                        clock(now.starts()),
                        now.van().name()));
    }

    private void open(LocalDate date, SiteView site, String code, List<String> arguments) {
        followups.open(new NewFollowup(
                code,
                arguments,
                Urgency.NOW,
                "site",
                site.id().value(),
                "promise:" + date + ":" + site.id(),
                "/sites/" + site.id()));
    }

    private static String clock(LocalTime time) {
        return DateTimeFormatter.ofLocalizedTime(FormatStyle.SHORT)
                .withLocale(LocaleContextHolder.getLocale())
                .format(time);
    }

    private static String day(LocalDate date) {
        return DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM)
                .withLocale(LocaleContextHolder.getLocale())
                .format(date);
    }
}
