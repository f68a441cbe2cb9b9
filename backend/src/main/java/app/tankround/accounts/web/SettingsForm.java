package app.tankround.accounts.web;

import app.tankround.accounts.BusinessSettings;
import app.tankround.chemistry.DecisionRule;
import app.tankround.units.UnitSystem;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.joda.money.CurrencyUnit;
import org.joda.money.IllegalCurrencyException;
import org.jspecify.annotations.Nullable;

/** The settings of the business as typed. */
record SettingsForm(
        @Nullable String name,
        @Nullable String email,
        @Nullable String phone,
        @Nullable String address,
        @Nullable String currency,
        @Nullable String country,
        @Nullable String locale,
        @Nullable String zone,
        @Nullable UnitSystem unitSystem,
        @Nullable String gravityReference,
        @Nullable BigDecimal saltYield,
        @Nullable DecisionRule decisionRule,
        int version) {

    /** Languages that the program's words exist in, with the number and date habits of a country. */
    static final List<String> LOCALES = List.of("en-GB", "en-IE", "en-US", "en-AU", "en-NZ", "en-CA", "en-ZA");

    static SettingsForm of(BusinessSettings settings) {
        return new SettingsForm(
                settings.name(),
                settings.email().orElse(null),
                settings.phone().orElse(null),
                settings.address().orElse(null),
                settings.currency().getCode(),
                settings.country(),
                settings.locale().toLanguageTag(),
                settings.zone().getId(),
                settings.unitSystem(),
                settings.gravityReference(),
                BigDecimal.valueOf(settings.saltYield()),
                settings.decisionRule(),
                settings.version());
    }

    BusinessSettings settings() {
        return new BusinessSettings(
                text(name),
                optional(email),
                optional(phone),
                optional(address),
                currencyUnit(),
                countryCode(),
                knownLocale("locale", text(locale)),
                zoneId(),
                unitSystem == null ? UnitSystem.METRIC : unitSystem,
                text(gravityReference),
                saltYield == null ? Double.NaN : saltYield.doubleValue(),
                decisionRule == null ? DecisionRule.GUARD_BAND : decisionRule,
                version);
    }

    static Locale knownLocale(String field, String tag) {
        if (!LOCALES.contains(tag)) {
            throw new FieldRefusal(field, "accounts.locale-unknown", tag, String.join(", ", LOCALES));
        }
        return Locale.forLanguageTag(tag);
    }

    private CurrencyUnit currencyUnit() {
        try {
            return CurrencyUnit.of(text(currency).toUpperCase(Locale.ROOT));
        } catch (IllegalCurrencyException unknown) {
            throw new FieldRefusal("currency", "accounts.currency-unknown", text(currency));
        }
    }

    private String countryCode() {
        String code = text(country).toUpperCase(Locale.ROOT);
        if (!Arrays.asList(Locale.getISOCountries()).contains(code)) {
            throw new FieldRefusal("country", "accounts.country-unknown", text(country));
        }
        return code;
    }

    private ZoneId zoneId() {
        try {
            return ZoneId.of(text(zone));
        } catch (DateTimeException unknown) {
            throw new FieldRefusal("zone", "accounts.zone-unknown", text(zone));
        }
    }

    static String text(@Nullable String typed) {
        return typed == null ? "" : typed.strip();
    }

    static Optional<String> optional(@Nullable String typed) {
        return Optional.of(text(typed)).filter(value -> !value.isEmpty());
    }
}
