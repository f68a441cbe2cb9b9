package app.tankround.visits;

import app.tankround.accounts.Days;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentView;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.stock.UnmeasuredBatches;
import app.tankround.stock.WaterBatchView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Quantity;
import app.tankround.visits.VisitDesks.Taken;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;

/**
 * Asks back where something was done because of an instrument alone that decides nothing, such as a suspect one. Another
 * instrument on the same water, or a reason why it was done all the same, lets it pass.
 */
@Component
class Reliance {

    private final ReadingService readings;
    private final CalibrationService calibrations;
    private final UnmeasuredBatches unmeasured;
    private final Clock clock;

    Reliance(ReadingService readings, CalibrationService calibrations, UnmeasuredBatches unmeasured, Clock clock) {
        this.readings = readings;
        this.calibrations = calibrations;
        this.unmeasured = unmeasured;
        this.clock = clock;
    }

    /**
     * Requires that one of the readings that bear on an act in a system may decide it: those of what it is about; where that
     * is not known or was not measured, the salinity of the visit or else the last one before, unless that is too old to tell
     * anything. Nothing else that was measured does.
     *
     * @param about the quantity that it is about
     * @throws FieldRefusal at {@code because} if all of them are by instruments that decide nothing, naming others, or by
     *     none that was named
     */
    void require(EntryContext context, WaterSystemId system, Optional<Quantity> about) {
        VisitDesks.Desk desk = context.desk();
        List<Taken> here = desk.measured(context.visit().id(), system);
        List<Taken> nearest = about.map(quantity -> of(quantity, here)).orElse(List.of());
        // A number of which nobody said what showed it is no evidence, for or against.
        List<Taken> named = (nearest.isEmpty() ? of(Quantity.SALINITY, here) : nearest)
                .stream().filter(Taken::saysHow).toList();
        if (named.isEmpty() && !nearest.isEmpty()) {
            refuse("visits.rests-on-alone.NOT_STATED", nearest.getLast().quantity(), "", "");
        }
        List<Taken> deciding = named.isEmpty() ? desk.lastNamedSalinity(system, context.at()) : named;
        List<CalibrationHistory> undecided = undecided(desk, deciding);
        if (!undecided.isEmpty()) {
            refuse(
                    "visits.rests-on-alone."
                            + why(undecided.getLast(), deciding.getLast().at(), desk.zone()),
                    undecided.getLast(),
                    "");
        }
    }

    /**
     * Requires that the salinity of salt water that is changed is known: where it was measured before, but neither at this visit
     * nor lately, nobody can match the new water to it.
     *
     * @throws FieldRefusal at {@code because} if it was measured too long ago, naming the day
     */
    void requireKnown(EntryContext context, WaterSystemView system) {
        VisitDesks.Desk desk = context.desk();
        if (!system.kind().isSalt()
                || !of(Quantity.SALINITY, desk.measured(context.visit().id(), system.id()))
                        .isEmpty()) {
            return;
        }
        desk.lastSalinity(system.id())
                .filter(last -> !VisitDesks.Desk.holds(last, context.at()))
                .ifPresent(last -> {
                    throw new FieldRefusal(
                            "because",
                            "visits.salinity-too-old",
                            system.name(),
                            Days.day(LocalDate.ofInstant(last.at(), desk.zone()), context.locale()));
                });
    }

    /** The instruments behind these readings, where none of them decides anything; else none. */
    static List<CalibrationHistory> undecided(VisitDesks.Desk desk, List<Taken> deciding) {
        List<CalibrationHistory> undecided = deciding.stream()
                .flatMap(reading -> undecided(desk, reading).stream())
                .toList();
        return undecided.size() == deciding.size() ? undecided : List.of();
    }

    /** The last part of the code of what is asked: why what an instrument showed at an instant decides nothing. */
    static String why(CalibrationHistory history, Instant at, ZoneId zone) {
        boolean doubted = !history.isExpiredAt(at, zone) && history.statusAt(at).decides();
        return doubted ? "DOUBTED" : history.reasonAt(at, zone);
    }

    /**
     * The instrument that decides nothing and by which alone both a tank and its new water were measured: they only matched.
     *
     * @param newWater what the new water was measured by
     */
    Optional<Matched> onlyMatched(EntryContext context, WaterSystemId system, InstrumentId newWater) {
        VisitDesks.Desk desk = context.desk();
        List<Taken> here = of(Quantity.SALINITY, desk.measured(context.visit().id(), system)).stream()
                .filter(Taken::saysHow)
                .toList();
        List<Taken> tank = here.isEmpty() ? desk.lastNamedSalinity(system, context.at()) : here;
        return undecided(desk, tank).stream()
                .filter(history -> history.instrument().id().equals(newWater))
                .reduce((earlier, later) -> later)
                .map(history -> new Matched(
                        history.instrument().code(), why(history, tank.getLast().at(), desk.zone())));
    }

    /** @param why code of what is wrong with the instrument */
    record Matched(String instrument, String why) {}

    /**
     * Requires that what was put in was measured by an instrument that may decide it.
     *
     * @throws FieldRefusal at {@code because} if it is not, naming others
     */
    void requireDecides(EntryContext context, InstrumentId newWater) {
        CalibrationHistory history = context.desk().history(newWater);
        if (!history.decidesAt(context.at(), context.desk().zone())) {
            refuse(
                    "visits.rests-on-alone."
                            + why(history, context.at(), context.desk().zone()),
                    history,
                    "");
        }
    }

    private static List<Taken> of(Quantity quantity, List<Taken> readings) {
        return readings.stream()
                .filter(reading -> reading.quantity() == quantity)
                .toList();
    }

    static Optional<CalibrationHistory> undecided(VisitDesks.Desk desk, Taken reading) {
        return reading.instrumentId()
                .filter(instrument -> !reading.assessment()
                        .map(AssessmentView::decides)
                        .orElseGet(() -> desk.history(instrument).decidesAt(reading.at(), desk.zone())))
                .map(desk::history);
    }

    /**
     * Requires that what a batch was released by is still believed, and is what was meant.
     *
     * @param measuredHere whether the new water was measured at this visit, which tells of water that nobody had measured
     * @throws FieldRefusal at {@code because} if it is not, naming other instruments
     */
    void requireBatch(WaterBatchView batch, boolean measuredHere) {
        WaterBatchView.Release release = batch.release().orElseThrow();
        String number = Integer.toString(batch.number());
        if (release.reading().isEmpty()) {
            if (!measuredHere) {
                throw new FieldRefusal("because", "visits.batch-unmeasured", number);
            }
            return;
        }
        if (!measuredHere && unmeasured.off(batch).isPresent()) {
            throw new FieldRefusal("because", "visits.batch-unmeasured-off", number);
        }
        ReadingView measured = readings.require(release.reading().get());
        if (!measured.assessment().decides()) {
            refuse(
                    "visits.batch-doubted",
                    calibrations.history(measured.instrumentId().orElseThrow()),
                    number);
        }
    }

    private void refuse(String code, CalibrationHistory history, String batch) {
        InstrumentView instrument = history.instrument();
        refuse(code, instrument.quantity(), instrument.code(), batch);
    }

    private void refuse(String code, Quantity quantity, String instrument, String batch) {
        String others = calibrations.deciding(quantity, clock.instant()).stream()
                .map(InstrumentView::code)
                .filter(other -> !other.equals(instrument))
                .collect(Collectors.joining(", "));
        throw new FieldRefusal("because", code + (others.isEmpty() ? ".none" : ""), instrument, others, batch);
    }
}
