package app.tankround.persistence;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.AbstractPlatformTransactionManager;
import org.springframework.transaction.support.DefaultTransactionStatus;
import org.springframework.transaction.support.TransactionTemplate;

class TransactionMemoryTests {

    private final Object owner = new Object();
    private final PlatformTransactionManager transactions = new NoDatabase();

    private List<String> kept() {
        return TransactionMemory.of(owner, ArrayList::new);
    }

    @Test
    void keepsThingsForOneTransactionAndNotForTheNext() {
        var transaction = new TransactionTemplate(transactions);
        transaction.executeWithoutResult(running -> {
            kept().add("first");
            assertThat(kept()).containsExactly("first");
        });

        transaction.executeWithoutResult(running -> assertThat(kept()).isEmpty());
    }

    @Test
    void tellsATransactionOfItsOwnNothingOfTheOneThatWaits() {
        var own = new TransactionTemplate(transactions);
        own.setPropagationBehavior(TransactionDefinition.PROPAGATION_REQUIRES_NEW);
        new TransactionTemplate(transactions).executeWithoutResult(outer -> {
            kept().add("outer");
            own.executeWithoutResult(inner -> {
                assertThat(kept()).isEmpty();
                kept().add("inner");
            });
            assertThat(kept()).containsExactly("outer");
        });
    }

    private static final class NoDatabase extends AbstractPlatformTransactionManager {

        private boolean running;

        @Override
        protected Object doGetTransaction() {
            return running;
        }

        @Override
        protected boolean isExistingTransaction(Object transaction) {
            return (boolean) transaction;
        }

        @Override
        protected void doBegin(Object transaction, TransactionDefinition definition) {
            running = true;
        }

        @Override
        protected Object doSuspend(@Nullable Object transaction) {
            running = false;
            return Objects.requireNonNull(transaction);
        }

        @Override
        protected void doResume(@Nullable Object transaction, Object suspended) {
            running = true;
        }

        @Override
        protected void doCommit(DefaultTransactionStatus status) {
            running = false;
        }

        @Override
        protected void doRollback(DefaultTransactionStatus status) {
            running = false;
        }
    }
}
