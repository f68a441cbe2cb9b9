package app.tankround.health;

import app.tankround.instruments.InstrumentId;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What the ranking says of one system.
 *
 * @param concerns the worst first
 * @param open whether some newest reading, though no concern yet, says nothing: too close to tell, not measured or not
 *     trusted
 * @param filmWeek the week of its life, while a brown film is expected in it and needs nothing
 */
public record SystemHealth(SystemFacts facts, List<Concern> concerns, boolean open, Optional<Long> filmWeek) {

    public SystemHealth {
        concerns = List.copyOf(concerns);
    }

    public Optional<Concern> worst() {
        return concerns.stream().findFirst();
    }

    /** The worst that is about this water, and not about an instrument that others were read with as well. */
    public Optional<Concern> own() {
        return concerns.stream()
                .filter(concern -> concern.instrument().isEmpty())
                .findFirst();
    }

    /** Whether animals are in danger now, as far as anybody knows. */
    public boolean endangered() {
        return own().filter(Concern::endangers).isPresent();
    }

    /** Instruments that alone bring newest readings of it into doubt. */
    public Set<InstrumentId> instruments() {
        return concerns.stream()
                .flatMap(concern -> concern.instrument().stream())
                .collect(Collectors.toCollection(LinkedHashSet::new));
    }

    /** Which of three counts it belongs to. */
    public State state() {
        if (own().isEmpty()) {
            return open || worst().isPresent() ? State.UNKNOWN : State.STEADY;
        }
        return switch (own().get().kind()) {
            case CANNOT_TELL, NO_READING -> State.UNKNOWN;
            case DANGER, IN_DOUBT, DISSOLVED_SOLIDS, SALINITY, SETTLING, OUTSIDE, PLANT_DUE, LASTING_FILM ->
                State.NEEDED;
        };
    }

    public enum State {
        NEEDED,
        UNKNOWN,
        /** Everything measured lies inside its target. */
        STEADY
    }
}
