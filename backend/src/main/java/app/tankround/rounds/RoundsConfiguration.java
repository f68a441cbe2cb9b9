package app.tankround.rounds;

import app.tankround.web.NavigationItem;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class RoundsConfiguration {

    @Bean
    NavigationItem roundsNavigation() {
        return NavigationItem.forStaff(20, "rounds", "/rounds");
    }
}
