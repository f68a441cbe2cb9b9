package app.tankround.purification;

import app.tankround.persistence.JdbcConverters;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class PurificationConfiguration {

    @Bean
    JdbcConverters purificationConverters() {
        return JdbcConverters.none().withId(StageId.class, StageId::of, StageId::value);
    }
}
