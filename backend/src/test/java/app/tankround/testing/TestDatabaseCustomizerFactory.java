package app.tankround.testing;

import java.util.List;
import org.springframework.boot.test.util.TestPropertyValues;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.test.context.ContextConfigurationAttributes;
import org.springframework.test.context.ContextCustomizer;
import org.springframework.test.context.ContextCustomizerFactory;
import org.springframework.test.context.MergedContextConfiguration;

/** Points each new context to a database of its own. */
class TestDatabaseCustomizerFactory implements ContextCustomizerFactory {

    @Override
    public ContextCustomizer createContextCustomizer(
            Class<?> testClass, List<ContextConfigurationAttributes> configAttributes) {
        return new TestDatabaseCustomizer();
    }

    /** A record, so that all are equal and contexts can be shared. */
    private record TestDatabaseCustomizer() implements ContextCustomizer {

        @Override
        public void customizeContext(ConfigurableApplicationContext context, MergedContextConfiguration configuration) {
            TestDatabase database = TestPostgres.shared().createMigrated();
            TestPropertyValues.of(
                            "spring.datasource.url=" + database.jdbcUrl(),
                            "spring.datasource.username=" + database.username(),
                            "spring.datasource.password=" + database.password(),
                            // Many contexts stay open at once on one server.
                            "spring.datasource.hikari.minimum-idle=0",
                            "spring.datasource.hikari.maximum-pool-size=5",
                            "tankround.https.port=0",
                            "tankround.data=" + TestDirectories.fresh("data"))
                    .applyTo(context);
        }
    }
}
