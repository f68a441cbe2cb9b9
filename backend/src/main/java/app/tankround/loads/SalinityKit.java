package app.tankround.loads;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.NextCheck;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.StandardView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockMass;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The instrument that salinity is read on during a round, and the standard for it where a check is due.
 *
 * <p>Of the instruments in use that the technician or nobody holds, one that its checks call sound goes before all
 * others, then the technician's own, then the first by code. One that failed its last check stays at the depot.
 *
 * @param notes what is wrong with the choice
 */
record SalinityKit(List<LoadLine> lines, List<LoadText> notes) {

    static final SalinityKit NONE = new SalinityKit(List.of(), List.of());

    SalinityKit {
        lines = List.copyOf(lines);
        notes = List.copyOf(notes);
    }

    /**
     * Chooses for a round.
     *
     * @param leavesAt when the van leaves
     * @param technician whose round it is
     */
    static SalinityKit choose(
            List<CalibrationHistory> register,
            List<StandardView> standards,
            Optional<PersonId> technician,
            Instant leavesAt,
            LocalDate date,
            Weights weights) {
        List<LoadText> notes = new ArrayList<>();
        List<Candidate> candidates = register.stream()
                .filter(history -> measuresSalinity(history.instrument(), date))
                .filter(history -> history.instrument()
                        .holder()
                        .map(holder -> technician.map(holder::equals).orElse(true))
                        .orElse(true))
                .map(history -> new Candidate(history, history.statusAt(leavesAt)))
                .sorted(order(technician))
                .toList();
        candidates.stream()
                .filter(Candidate::isOutOfUse)
                .forEach(candidate -> notes.add(LoadText.of(
                        "loads.note.instrument-failed", candidate.instrument().code())));
        Optional<Candidate> chosen =
                candidates.stream().filter(candidate -> !candidate.isOutOfUse()).findFirst();
        if (chosen.isEmpty()) {
            notes.add(LoadText.of("loads.note.no-salinity-instrument"));
            return new SalinityKit(List.of(), notes);
        }
        Candidate instrument = chosen.get();
        List<LoadLine> lines = new ArrayList<>();
        lines.add(line(
                "instrument:" + instrument.instrument().code(),
                LoadText.of(
                        "loads.item.instrument",
                        instrument.instrument().code(),
                        instrument.instrument().name()),
                LoadText.of(
                        "loads.work.instrument",
                        instrument.history().last().map(last -> (Object) last).orElse(""),
                        instrument.status()),
                weights));
        if (instrument.status() != InstrumentStatus.SOUND) {
            notes.add(LoadText.of(
                    "loads.note.instrument-unsound", instrument.instrument().code(), instrument.status()));
        }
        if (instrument.checkDueBy(leavesAt.plus(Duration.ofDays(1)))) {
            standard(standards, date)
                    .ifPresentOrElse(
                            standard -> lines.add(line(
                                    "standard:" + standard.code(),
                                    LoadText.of("loads.item.standard", standard.code(), standard.name()),
                                    LoadText.of(
                                            "loads.work.standard",
                                            instrument.instrument().code(),
                                            instrument.instrument().checkIntervalDays()),
                                    weights)),
                            () -> notes.add(LoadText.of(
                                    "loads.note.no-standard",
                                    instrument.instrument().code())));
        }
        return new SalinityKit(lines, notes);
    }

    private record Candidate(CalibrationHistory history, InstrumentStatus status) {

        InstrumentView instrument() {
            return history.instrument();
        }

        boolean isOutOfUse() {
            return status == InstrumentStatus.SUSPECT || status == InstrumentStatus.CONDEMNED;
        }

        boolean checkDueBy(Instant end) {
            Long due = NextCheck.of(history.history(), end.getEpochSecond()).dueAtEpochSecond();
            return status != InstrumentStatus.SOUND || due == null || due <= end.getEpochSecond();
        }
    }

    private static boolean measuresSalinity(InstrumentView instrument, LocalDate date) {
        return instrument.quantity() == Quantity.SALINITY
                && instrument.retiredOn().map(retired -> retired.isAfter(date)).orElse(true);
    }

    private static Comparator<Candidate> order(Optional<PersonId> technician) {
        return Comparator.comparing((Candidate candidate) -> candidate.status() != InstrumentStatus.SOUND)
                .thenComparing(candidate -> candidate.instrument().holder().isEmpty()
                        || !candidate.instrument().holder().equals(technician))
                .thenComparing(candidate -> candidate.instrument().code());
    }

    /** A standard in the working range that has not expired; the one opened last is likeliest to be good. */
    private static Optional<StandardView> standard(List<StandardView> standards, LocalDate date) {
        return standards.stream()
                .filter(standard -> standard.quantity() == Quantity.SALINITY)
                .filter(standard -> !standard.isZero() && !standard.expiredOn(date))
                .min(Comparator.comparing(
                                (StandardView standard) -> standard.openedOn().orElse(LocalDate.MIN),
                                Comparator.reverseOrder())
                        .thenComparing(StandardView::code));
    }

    private static LoadLine line(String key, LoadText item, LoadText working, Weights weights) {
        StockMass mass = weights.of(StockKind.TEST_KIT, key, BigDecimal.ONE, "count");
        return new LoadLine(
                key,
                LoadGroup.INSTRUMENTS,
                Optional.empty(),
                BigDecimal.ONE,
                LoadUnit.PIECE,
                item,
                Optional.empty(),
                mass.mass(),
                mass.estimated(),
                List.of(working),
                List.of());
    }
}
