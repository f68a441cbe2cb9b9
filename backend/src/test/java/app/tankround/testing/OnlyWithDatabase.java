package app.tankround.testing;

import org.junit.platform.engine.FilterResult;
import org.junit.platform.engine.TestDescriptor;
import org.junit.platform.launcher.PostDiscoveryFilter;

/** Leaves {@link ChosenDatabaseTests} alone to fail, in one sentence, where no test could have its database. */
public final class OnlyWithDatabase implements PostDiscoveryFilter {

    private final boolean available = TestPostgres.isAvailable();

    @Override
    public FilterResult apply(TestDescriptor test) {
        return FilterResult.includedIf(
                available || test.getUniqueId().toString().contains(ChosenDatabaseTests.class.getSimpleName()));
    }
}
