package app.tankround.accounts.web;

import app.tankround.accounts.BusinessSettings;
import app.tankround.chemistry.DecisionRule;
import app.tankround.units.UnitSystem;
import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/** What an empty installation asks its first owner. The rest has a start value and is changed under settings. */
record FirstOwnerForm(
        @Nullable String businessName,
        @Nullable String currency,
        @Nullable String country,
        @Nullable String locale,
        @Nullable String zone,
        @Nullable UnitSystem unitSystem,
        String ownerName,
        String signInName,
        String password) {

    /** Common practice, no source: most mixes carry some water of crystallisation. The owner sets it from the label. */
    private static final BigDecimal START_YIELD = new BigDecimal("0.95");

    FirstOwnerForm {
        ownerName = ownerName == null ? "" : ownerName;
        signInName = signInName == null ? "" : signInName;
        password = password == null ? "" : password;
    }

    static FirstOwnerForm empty() {
        return new FirstOwnerForm(null, "EUR", "IE", "en-IE", "Europe/Dublin", UnitSystem.METRIC, "", "", "");
    }

    BusinessSettings settings() {
        boolean us = unitSystem == UnitSystem.US_CUSTOMARY;
        return new SettingsForm(
                        businessName,
                        null,
                        null,
                        null,
                        currency,
                        country,
                        locale,
                        zone,
                        unitSystem,
                        us ? "60F/60F" : "20/20",
                        START_YIELD,
                        DecisionRule.GUARD_BAND,
                        0)
                .settings();
    }
}
