package app.tankround.accounts;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.Locale;
import org.springframework.stereotype.Component;

/** Days and times as pages and messages show them: in the business's zone. */
@Component
public class Days {

    private final BusinessProfile business;

    Days(BusinessProfile business) {
        this.business = business;
    }

    public ZoneId zone() {
        return business.zone();
    }

    public LocalDate of(Instant instant) {
        return LocalDate.ofInstant(instant, zone());
    }

    public String day(Instant instant, Locale locale) {
        return day(of(instant), locale);
    }

    public static String day(LocalDate day, Locale locale) {
        return DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM)
                .withLocale(locale)
                .format(day);
    }

    public String moment(Instant instant, Locale locale) {
        return DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT)
                .withLocale(locale)
                .withZone(zone())
                .format(instant);
    }
}
