package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.tanks.WaterSystemView;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.List;
import org.springframework.stereotype.Component;

/** The arguments of the sentences about what is running or switched off. */
@Component
class RunningWords {

    private final SiteService sites;
    private final BusinessProfile business;
    private final Clock clock;

    RunningWords(SiteService sites, BusinessProfile business, Clock clock) {
        this.sites = sites;
        this.business = business;
        this.clock = clock;
    }

    /** Site, system, since when. */
    List<String> of(VisitRow visit, WaterSystemView system, Instant since) {
        return List.of(sites.find(visit.siteId()).map(SiteView::title).orElse(""), system.name(), time(since));
    }

    /** By day and hour, whenever it is read. */
    String dayAndTime(Instant at) {
        BusinessSettings settings = business.current();
        return DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT)
                .withLocale(settings.locale())
                .format(at.atZone(settings.zone()));
    }

    /** Of today only the hour. */
    String time(Instant at) {
        BusinessSettings settings = business.current();
        ZonedDateTime then = at.atZone(settings.zone());
        boolean today = then.toLocalDate().equals(LocalDate.ofInstant(clock.instant(), settings.zone()));
        DateTimeFormatter format = today
                ? DateTimeFormatter.ofLocalizedTime(FormatStyle.SHORT)
                : DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT);
        return format.withLocale(settings.locale()).format(then);
    }
}
