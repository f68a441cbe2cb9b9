package app.tankround.accounts;

import app.tankround.chemistry.DecisionRule;
import app.tankround.units.UnitSystem;
import java.time.ZoneId;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.joda.money.CurrencyUnit;
import org.jspecify.annotations.Nullable;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;

/** The one row that says whose installation this is. */
record Business(
        @Id UUID id,
        String name,
        @Nullable String email,
        @Nullable String phone,
        @Nullable String address,
        CurrencyUnit currency,
        String country,
        Locale locale,
        ZoneId zone,
        UnitSystem unitSystem,
        String gravityReference,
        double saltYield,
        DecisionRule decisionRule,
        @Version int version) {

    static Business of(UUID id, BusinessSettings settings) {
        return new Business(
                id,
                settings.name(),
                settings.email().orElse(null),
                settings.phone().orElse(null),
                settings.address().orElse(null),
                settings.currency(),
                settings.country(),
                settings.locale(),
                settings.zone(),
                settings.unitSystem(),
                settings.gravityReference(),
                settings.saltYield(),
                settings.decisionRule(),
                settings.version());
    }

    BusinessSettings settings() {
        return new BusinessSettings(
                name,
                Optional.ofNullable(email),
                Optional.ofNullable(phone),
                Optional.ofNullable(address),
                currency,
                country,
                locale,
                zone,
                unitSystem,
                gravityReference,
                saltYield,
                decisionRule,
                version);
    }
}
