package app.tankround.instruments;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.springframework.stereotype.Component;

/** Days as the business counts them. */
@Component
class BusinessDay {

    private final BusinessProfile business;
    private final Clock clock;

    BusinessDay(BusinessProfile business, Clock clock) {
        this.business = business;
        this.clock = clock;
    }

    LocalDate today() {
        return of(clock.instant());
    }

    LocalDate of(Instant instant) {
        return LocalDate.ofInstant(instant, zone());
    }

    private ZoneId zone() {
        return business.find().map(BusinessSettings::zone).orElse(ZoneOffset.UTC);
    }
}
