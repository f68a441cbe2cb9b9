package app.tankround.persistence;

import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.boot.autoconfigure.condition.NoneNestedConditions;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Conditional;
import org.springframework.context.annotation.Configuration;

/** Brings a PostgreSQL along, unless {@code spring.datasource.url} names one. */
@Configuration(proxyBeanMethods = false)
@Conditional(EmbeddedPostgresConfiguration.NoServerNamed.class)
class EmbeddedPostgresConfiguration {

    /** Closed by what started it, after everything made later: so the connection pool closes first. */
    @Bean(destroyMethod = "")
    EmbeddedPostgres embeddedPostgres(EarlyPostgres.Starting starting) {
        return starting.await();
    }

    @Bean
    JdbcConnectionDetails embeddedPostgresConnectionDetails(EmbeddedPostgres postgres) {
        return new EmbeddedConnectionDetails(postgres.jdbcUrl(), EmbeddedPostgres.ROLE, postgres.password());
    }

    private record EmbeddedConnectionDetails(String getJdbcUrl, String getUsername, String getPassword)
            implements JdbcConnectionDetails {}

    static class NoServerNamed extends NoneNestedConditions {

        NoServerNamed() {
            super(ConfigurationPhase.PARSE_CONFIGURATION);
        }

        @ConditionalOnProperty(EarlyPostgres.OTHER_SERVER)
        static class ServerNamed {}
    }
}
