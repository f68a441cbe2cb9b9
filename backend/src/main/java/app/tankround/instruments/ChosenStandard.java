package app.tankround.instruments;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.StandardRole;
import app.tankround.units.OutOfRangeException;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * The standard to take for the check of an instrument.
 *
 * <p>It checks where the instrument is used and not the zero alone, is in date, is believed, and is another bottle or lot
 * of about the same value as the one in which a suspect instrument failed, since that one settles nothing and nor does
 * another place on the scale. Of those, one that is open goes
 * before one that is not, and the one opened last before all others. A pH electrode has a zero, near 7, and a slope, which
 * only a second buffer shows (common practice).
 *
 * @param standard empty if and only if there is a shortage
 * @param second of another value, for a pH electrode where there is one
 * @param shortage why there is none to take
 */
public record ChosenStandard(
        Optional<StandardView> standard, Optional<StandardView> second, Optional<Shortage> shortage) {

    private static final BigDecimal ZERO_OF_AN_ELECTRODE = BigDecimal.valueOf(7);

    /** Why no standard is to be had, by the one nearest to being good. */
    public enum Shortage {
        /** None on the list checks this instrument where it is used. */
        NONE_FITS,
        /** All that fit are past their last day. */
        EXPIRED,
        /** All that fit and are in date are not believed. */
        NOT_BELIEVED,
        /** Only the bottle in which the instrument failed is left, or others of quite another value. */
        SAME_AGAIN
    }

    /**
     * Chooses.
     *
     * @param history of the instrument, as it is known when it is to be checked
     * @param standards all on the list
     * @param day of the check
     */
    public static ChosenStandard of(CalibrationHistory history, List<StandardView> standards, LocalDate day) {
        InstrumentView instrument = history.instrument();
        List<CheckPoint> failed = failedAt(history);
        List<StandardView> fitting = standards.stream()
                .filter(standard -> !standard.isZero() && fits(standard, instrument))
                .toList();
        List<StandardView> inDate = only(fitting, standard -> !standard.expiredOn(day));
        List<StandardView> believed = only(inDate, standard -> !standard.suspiciousOn(day));
        List<StandardView> other = only(
                believed,
                standard -> failed.isEmpty() || failed.stream().anyMatch(point -> settles(history, point, standard)));
        Comparator<StandardView> openedLast = openedLast(day);
        boolean electrode = instrument.kind() == InstrumentKind.PH_METER;
        Comparator<StandardView> first = Comparator.comparing(
                        (StandardView standard) -> opened(standard, day).isEmpty())
                .thenComparing(standard -> electrode
                        ? standard.value().subtract(ZERO_OF_AN_ELECTRODE).abs()
                        : BigDecimal.ZERO)
                .thenComparing(openedLast);
        Optional<StandardView> chosen = other.stream().min(first);
        Optional<StandardView> second = believed.stream()
                .filter(standard -> electrode
                        && chosen.filter(one -> one.value().compareTo(standard.value()) != 0)
                                .isPresent())
                .min(openedLast);
        Shortage shortage = fitting.isEmpty()
                ? Shortage.NONE_FITS
                : inDate.isEmpty()
                        ? Shortage.EXPIRED
                        : believed.isEmpty() ? Shortage.NOT_BELIEVED : Shortage.SAME_AGAIN;
        return new ChosenStandard(chosen, second, chosen.isPresent() ? Optional.empty() : Optional.of(shortage));
    }

    /** What shows the zero of an instrument beside the standard that it is checked in: in date, believed, the one opened last. */
    public static Optional<StandardView> zero(InstrumentView instrument, List<StandardView> standards, LocalDate day) {
        return standards.stream()
                .filter(standard -> standard.isZero() && isUsable(standard, instrument, day))
                .min(openedLast(day));
    }

    /** Whether a check of the instrument may be made in it, it is in date and it is believed. */
    static boolean isUsable(StandardView standard, InstrumentView instrument, LocalDate day) {
        return fits(standard, instrument) && !standard.expiredOn(day) && !standard.suspiciousOn(day);
    }

    private static Comparator<StandardView> openedLast(LocalDate day) {
        return Comparator.comparing(
                        (StandardView standard) -> opened(standard, day).orElse(LocalDate.MIN),
                        Comparator.reverseOrder())
                .thenComparing(StandardView::code);
    }

    /** Whether a check of the instrument may be made in it at all. */
    private static boolean fits(StandardView standard, InstrumentView instrument) {
        if (standard.quantity() != instrument.quantity() || !standard.kind().checks(instrument.kind())) {
            return false;
        }
        try {
            double shown = InstrumentScale.expected(instrument, standard.value(), standard.unit());
            return instrument.shows(InstrumentScale.written(shown));
        } catch (OutOfRangeException beyondScale) {
            return false;
        }
    }

    /** Where a suspect instrument failed, in the range it is used in. */
    private static List<CheckPoint> failedAt(CalibrationHistory history) {
        double permitted = history.facts().permittedError();
        List<CheckPoint> points = history.open().isEmpty()
                ? List.of()
                : history.failed().stream()
                        .flatMap(check -> check.points().stream())
                        .filter(point -> point.role() == StandardRole.WORKING_RANGE)
                        .toList();
        List<CheckPoint> off = points.stream()
                .filter(point -> !CalibrationCheck.passes(point.errorAsFound(), permitted))
                .toList();
        return off.isEmpty() ? points : off;
    }

    /** Whether it is of about the value at which the instrument failed, and another bottle or lot. */
    private static boolean settles(CalibrationHistory history, CheckPoint failed, StandardView standard) {
        double shown = InstrumentScale.expected(history.instrument(), standard.value(), standard.unit());
        return history.facts().isOnePlace(failed.trueValue(), shown)
                && !failed.standard()
                        .equals(CheckHistories.bottle(
                                standard.id(), standard.lot(), standard.value(), standard.unit()));
    }

    private static List<StandardView> only(List<StandardView> standards, Predicate<StandardView> kept) {
        return standards.stream().filter(kept).toList();
    }

    private static Optional<LocalDate> opened(StandardView standard, LocalDate day) {
        return standard.openedOn().filter(on -> !on.isAfter(day));
    }

    /** What to take, the first one first; none if there is a shortage. */
    public List<StandardView> standards() {
        return Stream.concat(standard.stream(), second.stream()).toList();
    }

    /** Whether a bottle is still closed on that day. */
    public static boolean unopened(StandardView standard, LocalDate day) {
        return opened(standard, day).isEmpty();
    }
}
