package app.tankround.accounts;

import app.tankround.persistence.JdbcConverters;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import app.tankround.web.NavigationItem;
import java.time.ZoneId;
import java.util.Locale;
import java.util.Set;
import org.joda.money.CurrencyUnit;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.session.jdbc.PostgreSqlJdbcIndexedSessionRepositoryCustomizer;

@Configuration(proxyBeanMethods = false)
class AccountsConfiguration {

    @Bean
    JdbcConverters accountsConverters() {
        return JdbcConverters.none()
                .withId(PersonId.class, PersonId::of, PersonId::value)
                .withId(VanId.class, VanId::of, VanId::value)
                .withId(DepotId.class, DepotId::of, DepotId::value)
                .withId(WaterContainerId.class, WaterContainerId::of, WaterContainerId::value)
                .with(Locale.class, String.class, Locale::forLanguageTag, Locale::toLanguageTag)
                .with(ZoneId.class, String.class, ZoneId::of, ZoneId::getId)
                .with(CurrencyUnit.class, String.class, CurrencyUnit::of, CurrencyUnit::getCode)
                .with(Mass.class, Double.class, Mass::ofKilograms, Mass::kilograms)
                .with(Volume.class, Double.class, Volume::ofLitres, Volume::litres);
    }

    /** Two answers may put the same new thing into one session at the same moment; the later one counts. */
    @Bean
    PostgreSqlJdbcIndexedSessionRepositoryCustomizer sessionsOfManyRequests() {
        return new PostgreSqlJdbcIndexedSessionRepositoryCustomizer();
    }

    @Bean
    NavigationItem vansNavigation() {
        return NavigationItem.forOffice(70, "vans", "/vans");
    }

    @Bean
    NavigationItem importsNavigation() {
        return NavigationItem.forOffice(90, "imports", "/imports");
    }

    @Bean
    NavigationItem settingsNavigation() {
        return new NavigationItem(95, "settings", "/settings", Set.of("OWNER"));
    }
}
