package app.tankround.testing;

import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Inherited;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.springframework.context.annotation.Import;
import org.springframework.test.context.ContextCustomizerFactories;
import org.springframework.test.context.TestExecutionListeners;

/**
 * Beside {@code @SpringBootTest}: the context gets a fresh, migrated database on the shared PostgreSQL server and a
 * {@link TestClock} in place of the system's clock.
 *
 * <p>Test classes with the same configuration share a context and so a database; each test makes rows of its own.
 */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@Documented
@Inherited
@Import(TestClockConfiguration.class)
@ContextCustomizerFactories(TestDatabaseCustomizerFactory.class)
@TestExecutionListeners(
        listeners = TestClockReset.class,
        mergeMode = TestExecutionListeners.MergeMode.MERGE_WITH_DEFAULTS)
public @interface IntegrationTest {}
