package app.tankround.readings;

import app.tankround.web.NavigationItem;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class ReadingsConfiguration {

    @Bean
    NavigationItem doubtsNavigation() {
        return NavigationItem.forStaff(45, "doubts", "/doubts");
    }
}
