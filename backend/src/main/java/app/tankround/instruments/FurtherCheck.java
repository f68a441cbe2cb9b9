package app.tankround.instruments;

import app.tankround.chemistry.SalinityScale;
import app.tankround.units.OutOfRangeException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What else an instrument should be held in, beside the standards of its last check in the range that it is used in.
 *
 * @param side where, seen from those standards
 * @param checked the end of those standards on that side, on the instrument's scale; the one standard for {@code ANOTHER}
 * @param read as far as it was read lately on that side, on the instrument's scale; empty for {@code ANOTHER}
 * @param salinity what {@code read} stands for as practical salinity, where the instrument measures salinity
 * @param standard in date and believed; empty if none on the list lies there
 */
public record FurtherCheck(
        Side side, double checked, Optional<Double> read, Optional<Double> salinity, Optional<StandardView> standard) {

    /** Where the further standard lies. */
    public enum Side {
        HIGHER,
        LOWER,
        /** Anywhere else, since one standard leaves open how the error changes along the scale. */
        ANOTHER
    }

    /**
     * What is missing; empty if nothing is, or if it was never checked in the range that it is used in.
     *
     * @param lately from the lowest to the highest that was read lately, on the instrument's scale
     * @param standards all on the list
     * @param day of the check
     */
    public static Optional<FurtherCheck> of(
            CalibrationHistory history,
            Optional<CalibrationHistory.Span> lately,
            List<StandardView> standards,
            LocalDate day) {
        return history.checkedSpanAt(Instant.MAX)
                .flatMap(checked -> side(history, checked, lately).map(side -> {
                    Optional<Double> read = switch (side) {
                        case HIGHER -> lately.map(CalibrationHistory.Span::high);
                        case LOWER -> lately.map(CalibrationHistory.Span::low);
                        case ANOTHER -> Optional.empty();
                    };
                    return new FurtherCheck(
                            side,
                            side == Side.LOWER ? checked.low() : checked.high(),
                            read,
                            read.flatMap(value -> salinity(history.instrument(), value)),
                            chosen(history, checked, side, read, standards, day));
                }));
    }

    private static Optional<Side> side(
            CalibrationHistory history, CalibrationHistory.Span checked, Optional<CalibrationHistory.Span> lately) {
        double permitted = history.facts().permittedError();
        if (checked.isOnePoint()) {
            return Optional.of(Side.ANOTHER);
        }
        if (lately.filter(read -> read.low() < checked.low() - permitted).isPresent()) {
            return Optional.of(Side.LOWER);
        }
        return lately.filter(read -> read.high() > checked.high() + permitted).map(read -> Side.HIGHER);
    }

    /** The nearest that reaches as far as was read, else the one that reaches furthest; a zero, or else the furthest away. */
    private static Optional<StandardView> chosen(
            CalibrationHistory history,
            CalibrationHistory.Span checked,
            Side side,
            Optional<Double> read,
            List<StandardView> standards,
            LocalDate day) {
        InstrumentView instrument = history.instrument();
        Stream<StandardView> usable =
                standards.stream().filter(standard -> ChosenStandard.isUsable(standard, instrument, day));
        double permitted = history.facts().permittedError();
        double wanted = read.orElse(0.0);
        return switch (side) {
            case HIGHER ->
                usable.filter(standard -> shown(instrument, standard) > checked.high() + permitted)
                        .min(reaching(instrument, wanted, 1));
            case LOWER ->
                usable.filter(standard -> shown(instrument, standard) < checked.low() - permitted)
                        .min(reaching(instrument, wanted, -1));
            case ANOTHER ->
                usable.filter(standard -> !history.facts().isOnePlace(checked.low(), shown(instrument, standard)))
                        .min(Comparator.comparing((StandardView standard) -> !standard.isZero())
                                .thenComparing(standard -> -Math.abs(shown(instrument, standard) - checked.low()))
                                .thenComparing(StandardView::code));
        };
    }

    private static Comparator<StandardView> reaching(InstrumentView instrument, double wanted, int upwards) {
        return Comparator.comparing((StandardView standard) -> upwards * (shown(instrument, standard) - wanted) < 0)
                .thenComparing(standard -> Math.abs(shown(instrument, standard) - wanted))
                .thenComparing(StandardView::code);
    }

    private static double shown(InstrumentView instrument, StandardView standard) {
        return InstrumentScale.expected(instrument, standard.value(), standard.unit());
    }

    private static Optional<Double> salinity(InstrumentView instrument, double value) {
        SalinityScale scale = InstrumentScale.scale(instrument);
        try {
            return scale.showsSalinity() ? Optional.of(scale.toSalinity(value).value()) : Optional.empty();
        } catch (OutOfRangeException beyondScale) {
            return Optional.empty();
        }
    }
}
