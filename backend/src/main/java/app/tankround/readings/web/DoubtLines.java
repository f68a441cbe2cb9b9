package app.tankround.readings.web;

import app.tankround.chemistry.VerdictCode;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.DecisionView;
import app.tankround.readings.DoubtChange;
import app.tankround.readings.DoubtEvidence;
import app.tankround.readings.DoubtLineView;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.tanks.WaterSystemId;
import java.text.NumberFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** What is in doubt, in words. */
@Component
class DoubtLines {

    /** Beyond these a percentage says more than is known. */
    private static final double SMALLEST_SHOWN = 0.01;

    /**
     * A line in words.
     *
     * @param page of what was done, or of the system that was measured
     * @param change what became of the verdict
     * @param now what the value really was; empty for a decision
     * @param chance that it was inside its target; empty where nothing can be said
     * @param ended how it ended; null while it is open
     */
    record Line(
            DoubtLineView line,
            String what,
            String where,
            @Nullable String page,
            String when,
            String asWritten,
            String change,
            String now,
            String chance,
            @Nullable String ended) {}

    /** Two instruments on one water, in words. */
    record Evidence(DoubtEvidence pair, String where, String when, String doubted, String other, String word) {

        /** What the form sends back. */
        public String value() {
            return pair.doubted().id() + "_" + pair.other().id();
        }
    }

    private final VerdictWords words;
    private final ReadingLines lines;
    private final ReadingService readings;
    private final DoubtWitnessWords witnesses;
    private final MessageSource messages;

    DoubtLines(
            VerdictWords words,
            ReadingLines lines,
            ReadingService readings,
            DoubtWitnessWords witnesses,
            MessageSource messages) {
        this.witnesses = witnesses;
        this.words = words;
        this.lines = lines;
        this.readings = readings;
        this.messages = messages;
    }

    Page page(Locale locale) {
        return new Page(lines.page(locale), locale);
    }

    /** The words of one page. */
    final class Page {

        private final ReadingLines.Page page;
        private final Locale locale;

        private Page(ReadingLines.Page page, Locale locale) {
            this.page = page;
            this.locale = locale;
        }

        ReadingLines.Page readings() {
            return page;
        }

        List<Line> of(List<DoubtLineView> found) {
            Map<ReadingId, ReadingView> again = readings.find(found.stream()
                    .flatMap(line -> line.ending().stream())
                    .flatMap(ending -> ending.again().stream())
                    .toList());
            return found.stream().map(line -> of(line, again)).toList();
        }

        private Line of(DoubtLineView line, Map<ReadingId, ReadingView> again) {
            return line.reading()
                    .map(doubted -> of(line, doubted, again))
                    .orElseGet(() -> of(line, line.decision().orElseThrow(), again));
        }

        private Line of(DoubtLineView line, DoubtLineView.Doubted doubted, Map<ReadingId, ReadingView> again) {
            ReadingView reading = doubted.reading();
            AssessmentView after = doubted.after();
            VerdictCode before = doubted.before().map(AssessmentView::verdict).orElse(after.verdictAsRead());
            return new Line(
                    line,
                    page.name(reading),
                    page.where(reading.systemId()),
                    "/systems/" + reading.systemId(),
                    page.when(line.happenedAt()),
                    words.asWritten(reading, locale),
                    change(line.change(), before, after.verdict()),
                    words.corrected(reading.assessedAs(after), locale).orElse(""),
                    after.grounds()
                            .filter(grounds -> after.verdict() != VerdictCode.NO_TARGET)
                            .map(grounds -> chance(grounds.inside()))
                            .orElse(""),
                    ended(line, again));
        }

        private Line of(DoubtLineView line, DecisionView decision, Map<ReadingId, ReadingView> again) {
            return new Line(
                    line,
                    messages.getMessage(decision.summaryCode(), decision.args().toArray(), locale),
                    decision.subjectKind().equals("water-system")
                            ? page.where(WaterSystemId.of(decision.subjectId()))
                            : "",
                    decision.page(),
                    page.when(line.happenedAt()),
                    "",
                    text("doubts.rests." + line.change()),
                    "",
                    "",
                    ended(line, again));
        }

        private String change(DoubtChange change, VerdictCode before, VerdictCode after) {
            return text("doubts.change." + change, words.word(before, locale), words.word(after, locale));
        }

        private String chance(double chance) {
            NumberFormat percent = NumberFormat.getPercentInstance(locale);
            if (chance < SMALLEST_SHOWN) {
                return text("doubts.chance.under", percent.format(SMALLEST_SHOWN));
            }
            if (chance > 1 - SMALLEST_SHOWN) {
                return text("doubts.chance.over", percent.format(1 - SMALLEST_SHOWN));
            }
            return text("doubts.chance", percent.format(chance));
        }

        private @Nullable String ended(DoubtLineView line, Map<ReadingId, ReadingView> again) {
            if (line.ending().isEmpty()) {
                return null;
            }
            DoubtLineView.Ending ending = line.ending().get();
            String measured = ending.again()
                    .flatMap(id -> Optional.ofNullable(again.get(id)))
                    .map(reading -> ": " + words.asWritten(reading, locale) + ", " + page.when(reading.takenAt()))
                    .orElse("");
            String note = ending.note().map(text -> ". " + text).orElse("");
            String by = ending.by()
                    .map(page::person)
                    .filter(name -> !name.isEmpty())
                    .map(name -> " (" + name + ", " + page.when(ending.at()) + ")")
                    .orElse("");
            return text("doubts.outcome." + ending.outcome()) + measured + note + by;
        }

        Evidence of(DoubtEvidence pair) {
            return new Evidence(
                    pair,
                    page.where(pair.doubted().systemId()) + ", " + page.name(pair.doubted()),
                    page.when(pair.doubted().takenAt()),
                    shown(pair.doubted().assessedAs(pair.before())),
                    shown(pair.other()),
                    text(
                            pair.agrees() ? "doubts.evidence.agree" : "doubts.evidence.disagree",
                            witnesses.difference(
                                    pair.doubted(),
                                    pair.before().salinity().isPresent()
                                            && pair.other()
                                                    .assessment()
                                                    .salinity()
                                                    .isPresent(),
                                    pair.compared(),
                                    locale),
                            witnesses.normalizedError(pair.compared(), locale)));
        }

        private String shown(ReadingView reading) {
            String by = reading.instrumentId().map(page::code).orElse("");
            return by + ": " + words.corrected(reading, locale).orElseGet(() -> words.asWritten(reading, locale));
        }

        /** A reading that a choice offers. */
        String choice(ReadingView reading) {
            Optional<String> by = reading.instrumentId().map(page::code).filter(code -> !code.isEmpty());
            return page.name(reading) + ", " + words.asWritten(reading, locale)
                    + by.map(code -> ", " + code).orElse("") + ", " + page.when(reading.takenAt());
        }

        private String text(String code, Object... args) {
            return messages.getMessage(code, args, locale);
        }
    }
}
