package app.tankround.persistence;

import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.boot.jdbc.autoconfigure.DataSourceProperties;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/**
 * Where the database is: the PostgreSQL that the program brings along, unless {@code spring.datasource.url} names one.
 * Asked when the program starts, not when it is built.
 */
@Configuration(proxyBeanMethods = false)
class DatabaseConfiguration {

    @Bean
    JdbcConnectionDetails databaseConnectionDetails(
            DataSourceProperties named, ObjectProvider<EarlyPostgres.Starting> starting) {
        EarlyPostgres.Starting own = starting.getIfAvailable();
        if (own == null) {
            return new Details(named.determineUrl(), named.determineUsername(), named.determinePassword());
        }
        EmbeddedPostgres postgres = own.await();
        return new Details(postgres.jdbcUrl(), EmbeddedPostgres.ROLE, postgres.password());
    }

    private record Details(
            String getJdbcUrl,
            @Nullable String getUsername,
            @Nullable String getPassword) implements JdbcConnectionDetails {}
}
