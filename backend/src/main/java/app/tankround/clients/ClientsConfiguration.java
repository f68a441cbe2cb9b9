package app.tankround.clients;

import app.tankround.persistence.JdbcConverters;
import app.tankround.web.NavigationItem;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class ClientsConfiguration {

    @Bean
    JdbcConverters clientsConverters() {
        return JdbcConverters.none()
                .withId(ClientId.class, ClientId::of, ClientId::value)
                .withId(ContactId.class, ContactId::of, ContactId::value)
                .withId(SiteId.class, SiteId::of, SiteId::value)
                .with(Weekdays.class, String.class, Weekdays::parse, Weekdays::toString)
                .with(Closures.class, String.class, Closures::parse, Closures::toString);
    }

    @Bean
    NavigationItem clientsNavigation() {
        return NavigationItem.forStaff(60, "clients", "/clients");
    }
}
