package app.tankround.health;

import app.tankround.web.NavigationItem;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class HealthConfiguration {

    @Bean
    NavigationItem todayNavigation() {
        return NavigationItem.forStaff(10, "today", "/");
    }
}
