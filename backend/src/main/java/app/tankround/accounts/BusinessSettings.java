package app.tankround.accounts;

import app.tankround.chemistry.DecisionRule;
import app.tankround.units.UnitSystem;
import java.time.ZoneId;
import java.util.Locale;
import java.util.Optional;
import org.joda.money.CurrencyUnit;

/**
 * How the one business of this installation works.
 *
 * @param gravityReference reference temperatures at which specific gravity is shown, such as {@code 20/20}
 * @param saltYield g of anhydrous sea salt in one g of the salt mix as bought, 0.5 to 1
 * @param decisionRule how a value with its uncertainty is decided against its target
 */
public record BusinessSettings(
        String name,
        Optional<String> email,
        Optional<String> phone,
        Optional<String> address,
        CurrencyUnit currency,
        String country,
        Locale locale,
        ZoneId zone,
        UnitSystem unitSystem,
        String gravityReference,
        double saltYield,
        DecisionRule decisionRule,
        int version) {}
