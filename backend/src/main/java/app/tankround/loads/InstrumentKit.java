package app.tankround.loads;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.StandardView;
import app.tankround.schedule.DueCheck;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockMass;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The instruments that go along on a round, and the standards for those that are to be checked.
 *
 * <p>Of those in use that the technician or nobody holds, these go along: one to read salinity on, where the round asks for
 * it; one for each other quantity that is tested, where the register has one; what the technician carries and can check today, with its standard, so that it can still be done at the first
 * stop; and for whatever the technician carries that is suspect or condemned, another of the same kind. That one stays at
 * the depot itself. One that its checks call sound goes before all others, then the technician's own, then the first by
 * code.
 *
 * @param notes what is wrong with the choice, apart from what the round's own checks say
 * @param kits the registered test kits for what is tested and read on no other instrument
 * @param expired kits for what is tested that are good no more on the day of the round, where there is no other
 * @param testsLeft for how many tests kits are enough before the round; nothing for those of which nobody can say
 * @param readOn what is tested and read on an instrument among the lines
 */
record InstrumentKit(
        List<LoadLine> lines,
        List<LoadText> notes,
        Map<Quantity, InstrumentView> kits,
        Map<Quantity, InstrumentView> expired,
        Map<InstrumentId, Integer> testsLeft,
        Set<Quantity> readOn) {

    /** Of a business that registers nothing. */
    static final InstrumentKit NONE = new InstrumentKit(List.of(), List.of(), Map.of(), Map.of(), Map.of(), Set.of());

    InstrumentKit {
        kits = Map.copyOf(kits);
        expired = Map.copyOf(expired);
        testsLeft = Map.copyOf(testsLeft);
        readOn = Set.copyOf(readOn);
        lines = List.copyOf(lines);
        notes = List.copyOf(notes);
    }

    /**
     * What a round asks for.
     *
     * @param leavesAt when the van leaves
     * @param readsSalinity whether salinity is read on it
     * @param tested what else is tested on it
     * @param due the checks of the day
     * @param ofRound those among them that are tasks of this round
     * @param firstStop the last place for a check
     * @param testsLeft for how many tests kits are enough, as far as anybody can say
     */
    record Asked(
            Optional<PersonId> technician,
            LocalDate date,
            Instant leavesAt,
            boolean readsSalinity,
            Set<Quantity> tested,
            List<DueCheck> due,
            List<DueCheck> ofRound,
            Optional<StopShare> firstStop,
            Map<InstrumentId, Integer> testsLeft) {}

    static InstrumentKit choose(List<CalibrationHistory> register, Asked asked, Weights weights) {
        List<Candidate> candidates = register.stream()
                .filter(history -> inUse(history.instrument(), asked.date()))
                .filter(history -> isFree(history.instrument(), asked))
                .map(history -> new Candidate(history, history.statusAt(asked.leavesAt())))
                .sorted(order(asked.technician()))
                .toList();
        var packing = new Packing(asked, weights);
        Optional<Candidate> forSalinity = candidates.stream()
                .filter(each -> asked.readsSalinity() && each.measures(Quantity.SALINITY) && !each.isOutOfUse())
                .findFirst();
        forSalinity.ifPresent(packing::take);
        if (asked.readsSalinity() && forSalinity.isEmpty()) {
            packing.notes.add(LoadText.of("loads.note.no-salinity-instrument"));
        }
        candidates.stream()
                .filter(Candidate::isOutOfUse)
                .filter(each ->
                        each.isOf(asked.technician()) || asked.readsSalinity() && each.measures(Quantity.SALINITY))
                .forEach(each -> packing.leave(
                        each,
                        each.measures(Quantity.SALINITY) && forSalinity.isPresent()
                                ? forSalinity.filter(Candidate::isTrusted)
                                : instead(each, candidates)));
        asked.tested().stream()
                .sorted()
                .filter(quantity -> register.stream()
                        .map(CalibrationHistory::instrument)
                        .anyMatch(each ->
                                each.quantity() == quantity && !each.kind().isKit() && inUse(each, asked.date())))
                .filter(quantity ->
                        candidates.stream().noneMatch(each -> each.measures(quantity) && !each.isOutOfUse()))
                .forEach(quantity -> packing.notes.add(LoadText.of("loads.note.no-instrument", quantity)));
        asked.tested()
                .forEach(quantity -> candidates.stream()
                        .filter(each -> each.measures(quantity) && !each.isOutOfUse())
                        .min(Comparator.comparing((Candidate each) -> !each.isTrusted())
                                .thenComparing(each -> !each.isOf(asked.technician()))
                                .thenComparing(Candidate::isKit))
                        .ifPresentOrElse(
                                found -> packing.test(quantity, found), () -> packing.miss(quantity, register, asked)));
        Map<InstrumentId, DueCheck> ofRound = byInstrument(asked.ofRound());
        candidates.stream()
                .filter(each -> each.isOf(asked.technician()) && !each.isOutOfUse())
                .filter(each -> Optional.ofNullable(
                                ofRound.get(each.instrument().id()))
                        .flatMap(check -> check.standard().standard())
                        .isPresent())
                .forEach(packing::take);
        return packing.kit();
    }

    private static Map<InstrumentId, DueCheck> byInstrument(List<DueCheck> checks) {
        return checks.stream()
                .filter(DueCheck::isOpen)
                .collect(Collectors.toMap(check -> check.instrument().id(), Function.identity()));
    }

    private static boolean inUse(InstrumentView instrument, LocalDate date) {
        return isKept(instrument, date)
                && instrument.expiresOn().filter(date::isAfter).isEmpty();
    }

    private static boolean isKept(InstrumentView instrument, LocalDate date) {
        return instrument.retiredOn().map(retired -> retired.isAfter(date)).orElse(true);
    }

    private static boolean isFree(InstrumentView instrument, Asked asked) {
        return instrument
                .holder()
                .map(holder -> asked.technician().map(holder::equals).orElse(true))
                .orElse(true);
    }

    private static Comparator<Candidate> order(Optional<PersonId> technician) {
        return Comparator.comparing((Candidate candidate) -> !candidate.isTrusted())
                .thenComparing(candidate -> !candidate.isOf(technician))
                .thenComparing(candidate -> candidate.instrument().code());
    }

    /** Another that can be trusted for the same quantity, of the same kind where there is one. */
    private static Optional<Candidate> instead(Candidate left, List<Candidate> candidates) {
        return candidates.stream()
                .filter(Candidate::isTrusted)
                .filter(each -> each.measures(left.instrument().quantity()))
                .min(Comparator.comparing(
                        each -> each.instrument().kind() != left.instrument().kind()));
    }

    private record Candidate(CalibrationHistory history, InstrumentStatus status) {

        InstrumentView instrument() {
            return history.instrument();
        }

        boolean measures(Quantity quantity) {
            return instrument().quantity() == quantity;
        }

        boolean isOf(Optional<PersonId> technician) {
            return technician.isPresent() && instrument().holder().equals(technician);
        }

        boolean isOutOfUse() {
            return status.isOutOfUse();
        }

        boolean isKit() {
            return instrument().kind().isKit();
        }

        /** A test kit that nobody ever checked is taken at its maker's word. */
        boolean isTrusted() {
            return status == InstrumentStatus.SOUND
                    || isKit() && history.checks().isEmpty();
        }
    }

    /** Puts lines and notes together. */
    private static final class Packing {

        private final Map<InstrumentId, DueCheck> due;
        private final Set<InstrumentId> ofRound;
        private final List<StopShare> firstStop;
        private final Weights weights;
        private final Map<String, LoadLine> lines = new LinkedHashMap<>();
        private final List<LoadText> notes = new ArrayList<>();
        private final Map<Quantity, InstrumentView> kits = new EnumMap<>(Quantity.class);
        private final Map<Quantity, InstrumentView> expired = new EnumMap<>(Quantity.class);
        private final Map<InstrumentId, Integer> testsLeft;
        private final Set<Quantity> readOn = EnumSet.noneOf(Quantity.class);

        Packing(Asked asked, Weights weights) {
            this.due = byInstrument(asked.due());
            this.ofRound = byInstrument(asked.ofRound()).keySet();
            this.firstStop = asked.firstStop().stream().toList();
            this.weights = weights;
            this.testsLeft = asked.testsLeft();
        }

        void take(Candidate candidate) {
            InstrumentView instrument = candidate.instrument();
            String key = "instrument:" + instrument.code();
            if (lines.containsKey(key)) {
                return;
            }
            add(
                    key,
                    LoadText.of("loads.item.instrument", instrument.code(), instrument.name()),
                    candidate
                            .history()
                            .last()
                            .map(last -> LoadText.of("loads.work.instrument", last, candidate.status()))
                            .orElseGet(() -> LoadText.of("loads.work.instrument-never")),
                    List.of());
            boolean said = ofRound.contains(instrument.id());
            if (!candidate.isTrusted() && !said) {
                notes.add(LoadText.of("loads.note.instrument-unsound", instrument.code(), candidate.status()));
            }
            Optional.ofNullable(due.get(instrument.id())).ifPresent(check -> {
                check.standard().standards().forEach(standard -> add(check, standard));
                check.standard()
                        .shortage()
                        .filter(none -> !said)
                        .ifPresent(none -> notes.add(LoadText.of("loads.note.no-standard", instrument.code())));
            });
        }

        /** A kit is loaded with what it is for. */
        void test(Quantity quantity, Candidate candidate) {
            if (candidate.isKit()) {
                kits.put(quantity, candidate.instrument());
            } else {
                readOn.add(quantity);
                take(candidate);
            }
        }

        /** Of several that are good no more, the one that was good longest. */
        void miss(Quantity quantity, List<CalibrationHistory> register, Asked asked) {
            register.stream()
                    .map(CalibrationHistory::instrument)
                    .filter(each -> each.quantity() == quantity
                            && each.kind().isKit()
                            && isKept(each, asked.date())
                            && isFree(each, asked)
                            && !inUse(each, asked.date()))
                    .max(Comparator.comparing(
                                    (InstrumentView each) -> each.expiresOn().orElse(LocalDate.MIN))
                            .thenComparing(InstrumentView::code))
                    .ifPresent(kit -> expired.put(quantity, kit));
        }

        void leave(Candidate candidate, Optional<Candidate> instead) {
            String code = candidate.instrument().code();
            String why = "loads.note.stays." + candidate.status();
            notes.add(instead.map(
                            other -> LoadText.of(why, code, other.instrument().code()))
                    .orElseGet(() -> LoadText.of(why + ".none", code)));
            instead.ifPresent(this::take);
        }

        private void add(DueCheck check, StandardView standard) {
            add(
                    "standard:" + standard.code(),
                    LoadText.of("loads.item.standard", standard.code(), standard.name()),
                    LoadText.of("loads.work.standard", check.instrument().code(), check.intervalDays()),
                    firstStop);
        }

        /** One bottle serves several instruments. */
        private void add(String key, LoadText item, LoadText working, List<StopShare> stops) {
            StockMass mass = weights.of(StockKind.TEST_KIT, key, BigDecimal.ONE, "count");
            List<LoadText> before =
                    Optional.ofNullable(lines.get(key)).map(LoadLine::workings).orElse(List.of());
            lines.put(
                    key,
                    new LoadLine(
                            key,
                            LoadGroup.INSTRUMENTS,
                            Optional.empty(),
                            BigDecimal.ONE,
                            LoadUnit.PIECE,
                            item,
                            Optional.empty(),
                            mass.mass(),
                            mass.estimated(),
                            Stream.concat(before.stream(), Stream.of(working)).toList(),
                            stops));
        }

        InstrumentKit kit() {
            return new InstrumentKit(List.copyOf(lines.values()), notes, kits, expired, testsLeft, readOn);
        }
    }
}
