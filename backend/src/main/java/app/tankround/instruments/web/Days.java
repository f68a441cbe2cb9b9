package app.tankround.instruments.web;

import app.tankround.accounts.BusinessProfile;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.Locale;
import org.springframework.stereotype.Component;

/** Days and times as these pages show them: in the business's zone. */
@Component
class Days {

    private final BusinessProfile business;

    Days(BusinessProfile business) {
        this.business = business;
    }

    ZoneId zone() {
        return business.zone();
    }

    LocalDate of(Instant instant) {
        return LocalDate.ofInstant(instant, zone());
    }

    String day(Instant instant, Locale locale) {
        return day(of(instant), locale);
    }

    static String day(LocalDate day, Locale locale) {
        return DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM)
                .withLocale(locale)
                .format(day);
    }

    String moment(Instant instant, Locale locale) {
        return DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT)
                .withLocale(locale)
                .withZone(zone())
                .format(instant);
    }
}
