package app.tankround.persistence;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
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

    private static final Logger LOG = LoggerFactory.getLogger(EmbeddedPostgresConfiguration.class);

    @Bean(destroyMethod = "close")
    EmbeddedPostgres embeddedPostgres(DataDirectory data) {
        return EmbeddedPostgres.start(data.path(), problem -> {
            LOG.error(problem);
            System.exit(1);
        });
    }

    /** The connection pool depends on this bean and this one on the server, so that the pool closes first. */
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

        @ConditionalOnProperty("spring.datasource.url")
        static class ServerNamed {}
    }
}
