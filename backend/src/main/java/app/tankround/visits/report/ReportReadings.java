package app.tankround.visits.report;

import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.SalinityScales;
import app.tankround.plans.PlanView.PlanStep;
import app.tankround.readings.Answer;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.ReadingMarks;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.reports.servicereport.DoubtNotice;
import app.tankround.reports.servicereport.Measurement;
import app.tankround.reports.servicereport.Measurement.Axis;
import app.tankround.reports.servicereport.Measurement.DoubtMark;
import app.tankround.reports.servicereport.Measurement.InDoubt;
import app.tankround.reports.servicereport.Measurement.Mark;
import app.tankround.reports.servicereport.Measurement.NotMeasured;
import app.tankround.reports.servicereport.Measurement.Plain;
import app.tankround.reports.servicereport.Measurement.State;
import app.tankround.reports.servicereport.Measurement.Verdict;
import app.tankround.reports.servicereport.WaterSystem.ReadingLine;
import app.tankround.tanks.SamplePointId;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.visits.ReadingAnswers;
import app.tankround.web.VerdictMark;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Readings as a client reads them. Values keep the digits and the unit that were written down. A reading that is not
 * trusted is shown as what was read and what is real, never as one number.
 */
final class ReportReadings {

    private final ReportWords words;
    private final VerdictWords verdicts;
    private final Map<SamplePointId, String> pointNames;

    static boolean isInDoubt(ReadingView reading) {
        return reading.answer() != Answer.NOT_MEASURED && !reading.assessment().trusted();
    }

    /**
     * @param pointNames names of the sample points that are told apart; empty where the water is the same everywhere
     */
    ReportReadings(ReportWords words, VerdictWords verdicts, Map<SamplePointId, String> pointNames) {
        this.words = words;
        this.verdicts = verdicts;
        this.pointNames = Map.copyOf(pointNames);
    }

    /** What was measured, with its sample point. */
    String name(ReadingView reading) {
        String quantity = verdicts.quantity(reading.quantity(), words.locale());
        return reading.samplePointId()
                .flatMap(point -> Optional.ofNullable(pointNames.get(point)))
                .map(point -> quantity + ", " + point)
                .orElse(quantity);
    }

    /** @param before the reading of the visit before */
    ReadingLine line(ReadingView reading, Optional<ReadingView> before) {
        Optional<Double> previous = before.filter(
                        earlier -> earlier.assessment().trusted())
                .filter(earlier -> earlier.unit() == reading.unit()
                        && earlier.gravityReference().equals(reading.gravityReference()))
                .flatMap(earlier -> earlier.assessment().correctedValue());
        @Nullable Measurement earlier =
                before.map(known -> measurement(known, Optional.empty())).orElse(null);
        @Nullable String target = verdicts.target(reading, words.locale())
                .map(range -> verdicts.withRule(range, reading.assessment(), words.locale()))
                .orElse(null);
        return new ReadingLine(name(reading), measurement(reading, previous), earlier, target);
    }

    /**
     * What an earlier version of the report said otherwise, in a sentence.
     *
     * @param then what was thought of the reading when that version was made; empty if it was not written down by then
     */
    Optional<String> change(ReadingView reading, Optional<AssessmentView> then) {
        // As the doubt list has it: what became the same is no other verdict, though another number stands behind it.
        boolean asBefore = then.filter(before -> before.trusted()
                        && before.verdict() == reading.assessment().verdict())
                .isPresent();
        String now = words.text(
                !isInDoubt(reading) ? "changed.trusted" : asBefore ? "changed.as-before" : "changed.untrusted",
                verdicts.asWritten(reading, words.locale()),
                real(reading).orElse(words.text("doubt.unknown")),
                verdicts.word(reading.assessment().verdict(), words.locale()));
        if (then.isEmpty()) {
            return Optional.of(words.text(
                    reading.replaces().isPresent() ? "changed.corrected" : "changed.added", name(reading), now));
        }
        boolean same = then.get().verdict() == reading.assessment().verdict()
                && then.get().trusted() == reading.assessment().trusted();
        return same
                ? Optional.empty()
                : Optional.of(
                        words.text("changed.reading", name(reading), verdicts.word(then.get(), words.locale()), now));
    }

    private Measurement measurement(ReadingView reading, Optional<Double> previous) {
        if (reading.answer() == Answer.NOT_MEASURED) {
            return new NotMeasured(reading.notMeasuredBecause().orElse(words.text("verdict.not-measured")));
        }
        Optional<VerdictMark> mark = ReadingMarks.of(reading, previous);
        if (isInDoubt(reading)) {
            return new InDoubt(
                    verdicts.asWritten(reading, words.locale()),
                    real(reading).orElse(null),
                    State.OPEN,
                    mark.map(ReportReadings::doubtMark).orElse(null));
        }
        return new Plain(
                value(reading),
                verdict(reading.assessment().verdict()),
                mark.map(ReportReadings::mark).orElse(null));
    }

    /** What it really is, with uncertainty; empty where the checks do not add up. */
    private Optional<String> real(ReadingView reading) {
        return Stream.of("GAIN_IMPLAUSIBLE", "ELECTRODE_SLOPE", "ELECTRODE_OFFSET")
                        .anyMatch(reading.assessment()::says)
                ? Optional.empty()
                : verdicts.corrected(reading, words.locale());
    }

    /** As written, or as the checks of the instrument correct it. */
    private String value(ReadingView reading) {
        String written = verdicts.asWritten(reading, words.locale());
        return isCorrected(reading.assessment())
                ? verdicts.corrected(reading, words.locale()).orElse(written)
                : written;
    }

    private static boolean isCorrected(AssessmentView assessment) {
        return assessment.says("READS_LOW_BY") || assessment.says("READS_HIGH_BY");
    }

    private static Verdict verdict(VerdictCode code) {
        return switch (code) {
            case INSIDE -> Verdict.INSIDE;
            case ABOVE -> Verdict.ABOVE;
            case BELOW -> Verdict.BELOW;
            case UNDECIDED -> Verdict.CANNOT_TELL;
            case NO_TARGET -> Verdict.NO_TARGET;
        };
    }

    private static Mark mark(VerdictMark drawn) {
        return new Mark(axis(drawn), drawn.value(), drawn.uncertainty(), drawn.previous());
    }

    private static DoubtMark doubtMark(VerdictMark drawn) {
        return new DoubtMark(axis(drawn), drawn.value(), drawn.real(), drawn.uncertainty());
    }

    private static Axis axis(VerdictMark drawn) {
        return new Axis(drawn.min(), drawn.max(), drawn.low(), drawn.high());
    }

    /** What a trusted reading outside its target, or too close to tell, means; empty where all is well, or {@link #danger}. */
    Optional<String> meaning(ReadingView reading) {
        VerdictCode verdict = reading.assessment().verdict();
        boolean worthSaying = switch (verdict) {
            case ABOVE, BELOW, UNDECIDED -> true;
            case INSIDE, NO_TARGET -> false;
        };
        if (!worthSaying || reading.endangers() || isInDoubt(reading) || reading.answer() == Answer.NOT_MEASURED) {
            return Optional.empty();
        }
        return Optional.of(words.text("meaning", name(reading), verdicts.sentence(reading, words.locale())));
    }

    /**
     * That a reading endangers the animals, calmly, and what was done about it; empty where it does not.
     *
     * @param over whether it was measured once more at the visit, and told of no danger
     * @param done what was done about it
     */
    Stream<String> danger(ReadingView reading, boolean over, Optional<String> done) {
        Optional<String> said = Optional.of(reading)
                .filter(ReadingView::endangers)
                .map(deadly -> words.text(
                        "danger" + (over ? ".over" : isInDoubt(deadly) ? ".in-doubt" : ""),
                        name(deadly),
                        verdicts.asWritten(deadly, words.locale()),
                        verdicts.sentence(deadly, words.locale())));
        Optional<String> acted = done.map(what -> words.text("danger.done", name(reading), what));
        return Stream.concat(said.stream(), acted.stream());
    }

    /**
     * Explains a reading in doubt.
     *
     * @param from the day of the visit
     * @param toCome the steps back to the target
     * @param done whether something was done about it all the same
     */
    DoubtNotice notice(ReadingView reading, LocalDate from, List<PlanStep> toCome, boolean done) {
        String quantity = name(reading);
        List<String> notDone = new ArrayList<>();
        List<DoubtNotice.Step> ramp = List.of();
        if (reading.quantity() == Quantity.SALINITY) {
            Optional<String> known = isCorrected(reading.assessment())
                    ? verdicts.correctedValue(reading, words.locale())
                    : Optional.empty();
            notDone.add(known.map(real -> words.text("not-done.salinity", real))
                    .orElseGet(() -> words.text("not-done.salinity.unknown")));
            ramp = ramp(reading, from, toCome);
        } else if (!done && !reading.endangers()) {
            notDone.add(words.text("not-done.other", quantity));
        }
        return new DoubtNotice(
                words.text("doubt.heading", quantity),
                State.OPEN,
                List.of(verdicts.sentence(reading, words.locale()), words.text("doubt.ours")),
                verdicts.asWritten(reading, words.locale()),
                real(reading).orElse(null),
                notDone,
                ramp);
    }

    private List<DoubtNotice.Step> ramp(ReadingView reading, LocalDate from, List<PlanStep> toCome) {
        if (toCome.isEmpty()) {
            return List.of();
        }
        SalinityScale scale = SalinityScales.of(reading.unit(), reading.gravityReference());
        List<Double> values = new ArrayList<>();
        List<LocalDate> days = new ArrayList<>();
        reading.assessment().correctedValue().ifPresent(real -> {
            values.add(real);
            days.add(from);
        });
        toCome.forEach(step -> {
            values.add(scale.readingIn(Salinity.ofPractical(step.after())));
            days.add(step.on());
        });
        int places = ReadingAnswers.placesOfSteps(reading.unit(), values);
        List<DoubtNotice.Step> steps = new ArrayList<>();
        for (int at = 0; at < values.size(); at++) {
            steps.add(new DoubtNotice.Step(
                    VerdictWords.withScale(
                            words.fixed(values.get(at), places), reading.unit(), reading.gravityReference()),
                    words.day(days.get(at))));
        }
        return steps;
    }
}
