package app.tankround.health;

import app.tankround.chemistry.PurifiedWaterNote;
import app.tankround.instruments.InstrumentId;
import app.tankround.purification.PlantState.Creep;
import app.tankround.units.Quantity;
import java.util.List;
import java.util.Optional;

/**
 * Why a system needs somebody.
 *
 * @param numbers what the sentence of the code counts, as {@link ConcernCode} says
 * @param series the readings it rests on, oldest first; empty where there is none
 * @param weight how bad it is among concerns of its kind; larger is worse
 * @param note what a plant for purified water needs, for {@link ConcernCode#PLANT}
 * @param creep what is known of a creep in a container that such a plant fills
 */
public record Concern(
        ConcernKind kind,
        ConcernCode code,
        Optional<Quantity> quantity,
        List<Long> numbers,
        List<SeriesPoint> series,
        double weight,
        Optional<PurifiedWaterNote> note,
        Optional<Creep> creep) {

    public Concern {
        numbers = List.copyOf(numbers);
        series = List.copyOf(series);
    }

    /** One that no plant for purified water has to do with. */
    Concern(
            ConcernKind kind,
            ConcernCode code,
            Optional<Quantity> quantity,
            List<Long> numbers,
            List<SeriesPoint> series,
            double weight) {
        this(kind, code, quantity, numbers, series, weight, Optional.empty(), Optional.empty());
    }

    /** Whether animals are in danger now, as far as anybody knows. */
    public boolean endangers() {
        return kind == ConcernKind.DANGER
                || kind == ConcernKind.IN_DOUBT
                        && last().filter(SeriesPoint::endangers).isPresent();
    }

    /** The instrument that this is really about: the water was only read with it, and what was read is no danger. */
    public Optional<InstrumentId> instrument() {
        return kind == ConcernKind.IN_DOUBT && !endangers()
                ? last().flatMap(SeriesPoint::instrument)
                : Optional.empty();
    }

    /** The reading it is about. */
    public Optional<SeriesPoint> last() {
        return series.isEmpty() ? Optional.empty() : Optional.of(series.getLast());
    }
}
