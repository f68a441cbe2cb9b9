package app.tankround.persistence;

import java.nio.file.Path;
import java.util.List;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Lazy;
import org.springframework.core.env.Environment;
import org.springframework.data.jdbc.core.dialect.JdbcDialect;
import org.springframework.data.jdbc.core.dialect.JdbcPostgresDialect;
import org.springframework.data.jdbc.repository.config.AbstractJdbcConfiguration;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcOperations;

/** Collects every module's {@link JdbcConverters} and says where the data lies. */
@Configuration(proxyBeanMethods = false)
class PersistenceConfiguration extends AbstractJdbcConfiguration {

    private final ObjectProvider<JdbcConverters> modules;

    PersistenceConfiguration(ObjectProvider<JdbcConverters> modules) {
        this.modules = modules;
    }

    @Override
    protected List<?> userConverters() {
        return modules.orderedStream()
                .flatMap(module -> module.converters().stream())
                .flatMap(pair -> pair.getConverters().stream())
                .toList();
    }

    /** Known, so nobody has to ask the database. */
    @Bean
    @Override
    public JdbcDialect jdbcDialect(@Lazy NamedParameterJdbcOperations operations) {
        return JdbcPostgresDialect.INSTANCE;
    }

    /** {@code tankround.data}, else a folder in the user's home. */
    @Bean
    static DataDirectory dataDirectory(Environment environment) {
        String configured = environment.getProperty("tankround.data", "");
        Path path = configured.isBlank() ? Path.of(System.getProperty("user.home"), ".tankround") : Path.of(configured);
        return new DataDirectory(path.toAbsolutePath().normalize());
    }
}
