package app.tankround.persistence;

import java.util.HashMap;
import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.transaction.support.TransactionSynchronization;
import org.springframework.transaction.support.TransactionSynchronizationManager;

/** What one object keeps in mind for the rest of the running transaction, and not a moment longer. */
public final class TransactionMemory {

    private static final Object ANSWERS = new Object();

    private TransactionMemory() {}

    /** A question, by who answers it. */
    private record Question(Object owner, String name, Object about) {}

    /**
     * The answer to a question that is asked once in a transaction that only reads, since nothing changes in it; anywhere
     * else it is asked each time. What is answered is never changed by whoever asks.
     *
     * @param name of the question among those of the owner
     */
    @SuppressWarnings("unchecked")
    public static <T> T askedOnce(Object owner, String name, Object about, Supplier<T> answer) {
        if (!TransactionSynchronizationManager.isCurrentTransactionReadOnly()) {
            return answer.get();
        }
        Map<Question, Object> answers = of(ANSWERS, HashMap::new);
        var question = new Question(owner, name, about);
        Object known = answers.get(question);
        if (known == null) {
            known = answer.get();
            answers.put(question, known);
        }
        return (T) known;
    }

    /**
     * What the owner keeps, found by {@code first} when it is asked for the first time.
     *
     * @throws IllegalStateException if no transaction runs
     */
    @SuppressWarnings("unchecked")
    public static <T> T of(Object owner, Supplier<T> first) {
        Object kept = TransactionSynchronizationManager.getResource(owner);
        if (kept != null) {
            return (T) kept;
        }
        T found = first.get();
        TransactionSynchronizationManager.bindResource(owner, found);
        TransactionSynchronizationManager.registerSynchronization(new TransactionSynchronization() {

            private @Nullable Object aside;

            @Override
            public void suspend() {
                aside = TransactionSynchronizationManager.unbindResourceIfPossible(owner);
            }

            @Override
            public void resume() {
                if (aside != null) {
                    TransactionSynchronizationManager.bindResource(owner, aside);
                }
            }

            @Override
            public void afterCompletion(int status) {
                forget(owner);
            }
        });
        return found;
    }

    /** Forgets what the owner keeps, since it is no longer true. */
    public static void forget(Object owner) {
        TransactionSynchronizationManager.unbindResourceIfPossible(owner);
    }
}
