package app.tankround.loads;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** What several stops need of one thing, while it is being added up. */
final class Pile {

    private final Optional<String> apartFor;
    private final Map<Integer, StopShare> shares = new TreeMap<>();
    private final List<LoadText> workings = new ArrayList<>();
    private final List<PooledNeed.Use> uses = new ArrayList<>();
    private final List<LoadText> learned = new ArrayList<>();

    private Pile(Optional<String> apartFor) {
        this.apartFor = apartFor;
    }

    /** An empty pile for whom this work is: for everybody clean, or for one sick system alone. */
    static Pile of(SystemWork work) {
        return new Pile(work.sick() ? Optional.of(work.system().name()) : Optional.empty());
    }

    /** An empty pile of something that clean and sick systems may share. */
    static Pile shared() {
        return new Pile(Optional.empty());
    }

    void add(SystemWork work, BigDecimal amount, LoadText working) {
        shares.merge(
                work.position(),
                new StopShare(work.position(), work.site().title(), amount),
                (had, more) -> new StopShare(
                        had.position(), had.siteName(), had.amount().add(more.amount())));
        if (!workings.contains(working)) {
            workings.add(working);
        }
    }

    /** What is known of how much of an amount that was added is used. */
    void use(PooledNeed.Use use, LoadText working) {
        uses.add(use);
        learned.add(working);
    }

    PooledNeed need() {
        return PooledNeed.of(uses);
    }

    /** How each use came to be known. */
    List<LoadText> learned() {
        return List.copyOf(learned);
    }

    BigDecimal amount() {
        return shares.values().stream().map(StopShare::amount).reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    Optional<String> apartFor() {
        return apartFor;
    }

    List<StopShare> shares() {
        return List.copyOf(shares.values());
    }

    List<LoadText> workings() {
        return List.copyOf(workings);
    }

    List<LoadText> workingsAnd(LoadText... last) {
        List<LoadText> all = new ArrayList<>(workings);
        all.addAll(List.of(last));
        return all;
    }
}
