package app.tankround.health;

import app.tankround.units.Quantity;
import java.util.List;
import java.util.Optional;

/**
 * Why a system needs somebody.
 *
 * @param numbers what the sentence of the code counts, as {@link ConcernCode} says
 * @param series the readings it rests on, oldest first; empty where there is none
 * @param weight how bad it is among concerns of its kind; larger is worse
 */
public record Concern(
        ConcernKind kind,
        ConcernCode code,
        Optional<Quantity> quantity,
        List<Long> numbers,
        List<SeriesPoint> series,
        double weight) {

    public Concern {
        numbers = List.copyOf(numbers);
        series = List.copyOf(series);
    }

    /** The reading it is about. */
    public Optional<SeriesPoint> last() {
        return series.isEmpty() ? Optional.empty() : Optional.of(series.getLast());
    }
}
