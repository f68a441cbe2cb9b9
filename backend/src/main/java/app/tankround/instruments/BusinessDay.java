package app.tankround.instruments;

import app.tankround.accounts.BusinessProfile;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import org.springframework.stereotype.Component;

/** Days as the business counts them. */
@Component
class BusinessDay {

    private static final Instant EARLIEST = Instant.parse("1990-01-01T00:00:00Z");
    private static final Duration CLOCK_TOLERANCE = Duration.ofMinutes(5);

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

    Instant startOf(LocalDate day) {
        return day.atStartOfDay(zone()).toInstant();
    }

    /** The last second of a day, or now if that is today. */
    Instant endOf(LocalDate day) {
        Instant end = day.plusDays(1).atStartOfDay(zone()).toInstant().minusSeconds(1);
        Instant now = clock.instant();
        return end.isAfter(now) ? now : end;
    }

    /**
     * Whatever happens to an instrument happens after it was bought and not in the future.
     *
     * @throws FieldRefusal at {@code field}
     */
    void refuseUnlessHappened(String field, InstrumentView instrument, Instant at) {
        boolean ahead = at.isAfter(clock.instant().plus(CLOCK_TOLERANCE));
        if (ahead || at.isBefore(EARLIEST)) {
            throw new FieldRefusal(
                    field,
                    ahead ? "instruments.check-in-future" : "instruments.date-implausible",
                    of(at).toString(),
                    of(EARLIEST).toString(),
                    today().toString());
        }
        LocalDate day = of(at);
        instrument.purchasedOn().filter(day::isBefore).ifPresent(purchased -> {
            throw new FieldRefusal(field, "instruments.check-before-purchase", day.toString(), purchased.toString());
        });
    }

    ZoneId zone() {
        return business.zone();
    }
}
