package app.tankround.readings.web;

import app.tankround.accounts.People;
import app.tankround.accounts.PersonView;
import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.InstrumentView;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.DecisionView;
import app.tankround.readings.DoubtChange;
import app.tankround.readings.DoubtEvidence;
import app.tankround.readings.DoubtLineView;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import java.text.NumberFormat;
import java.time.Instant;
import java.util.Locale;
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
    private final WaterSystems systems;
    private final InstrumentRegister instruments;
    private final People people;
    private final MessageSource messages;

    DoubtLines(
            VerdictWords words,
            ReadingLines lines,
            ReadingService readings,
            WaterSystems systems,
            InstrumentRegister instruments,
            People people,
            MessageSource messages) {
        this.words = words;
        this.lines = lines;
        this.readings = readings;
        this.systems = systems;
        this.instruments = instruments;
        this.people = people;
        this.messages = messages;
    }

    Line of(DoubtLineView line, Locale locale) {
        return line.reading()
                .map(doubted -> of(line, doubted, locale))
                .orElseGet(() -> of(line, line.decision().orElseThrow(), locale));
    }

    private Line of(DoubtLineView line, DoubtLineView.Doubted doubted, Locale locale) {
        ReadingView reading = doubted.reading();
        AssessmentView after = doubted.after();
        VerdictCode before = doubted.before().map(AssessmentView::verdict).orElse(after.verdictAsRead());
        return new Line(
                line,
                lines.name(reading, locale),
                where(reading.systemId()),
                "/systems/" + reading.systemId(),
                lines.when(line.happenedAt(), locale),
                words.asWritten(reading, locale),
                change(line.change(), before, after.verdict(), locale),
                words.corrected(reading.assessedAs(after), locale).orElse(""),
                after.grounds()
                        .filter(grounds -> after.verdict() != VerdictCode.NO_TARGET)
                        .map(grounds -> chance(grounds.inside(), locale))
                        .orElse(""),
                ended(line, locale));
    }

    private Line of(DoubtLineView line, DecisionView decision, Locale locale) {
        return new Line(
                line,
                messages.getMessage(decision.summaryCode(), decision.args().toArray(), locale),
                decision.subjectKind().equals("water-system") ? where(WaterSystemId.of(decision.subjectId())) : "",
                decision.page(),
                lines.when(line.happenedAt(), locale),
                "",
                text("doubts.rests." + line.change(), locale),
                "",
                "",
                ended(line, locale));
    }

    private String change(DoubtChange change, VerdictCode before, VerdictCode after, Locale locale) {
        return text("doubts.change." + change, locale, words.word(before, locale), words.word(after, locale));
    }

    private String chance(double chance, Locale locale) {
        NumberFormat percent = NumberFormat.getPercentInstance(locale);
        if (chance < SMALLEST_SHOWN) {
            return text("doubts.chance.under", locale, percent.format(SMALLEST_SHOWN));
        }
        if (chance > 1 - SMALLEST_SHOWN) {
            return text("doubts.chance.over", locale, percent.format(1 - SMALLEST_SHOWN));
        }
        return text("doubts.chance", locale, percent.format(chance));
    }

    private @Nullable String ended(DoubtLineView line, Locale locale) {
        if (line.ending().isEmpty()) {
            return null;
        }
        DoubtLineView.Ending ending = line.ending().get();
        String again = ending.again()
                .flatMap(readings::find)
                .map(reading -> ": " + words.asWritten(reading, locale) + ", " + lines.when(reading.takenAt(), locale))
                .orElse("");
        String note = ending.note().map(text -> ". " + text).orElse("");
        String by = ending.by()
                .flatMap(people::find)
                .map(PersonView::name)
                .map(name -> " (" + name + ", " + lines.when(ending.at(), locale) + ")")
                .orElse("");
        return text("doubts.outcome." + ending.outcome(), locale) + again + note + by;
    }

    Evidence of(DoubtEvidence pair, Locale locale) {
        return new Evidence(
                pair,
                where(pair.doubted().systemId()) + ", " + lines.name(pair.doubted(), locale),
                lines.when(pair.doubted().takenAt(), locale),
                shown(pair.doubted().assessedAs(pair.before()), locale),
                shown(pair.other(), locale),
                text(pair.agrees() ? "doubts.evidence.agree" : "doubts.evidence.disagree", locale));
    }

    private String shown(ReadingView reading, Locale locale) {
        String by = reading.instrumentId()
                .flatMap(instruments::find)
                .map(InstrumentView::code)
                .orElse("");
        return by + ": " + words.corrected(reading, locale).orElseGet(() -> words.asWritten(reading, locale));
    }

    String where(WaterSystemId system) {
        return systems.find(system)
                .map(found -> found.code() + ", " + found.name())
                .orElse("");
    }

    String when(Instant instant, Locale locale) {
        return lines.when(instant, locale);
    }

    /** A reading that a choice offers. */
    String choice(ReadingView reading, Locale locale) {
        Optional<String> by = reading.instrumentId().flatMap(instruments::find).map(InstrumentView::code);
        return lines.name(reading, locale) + ", " + words.asWritten(reading, locale)
                + by.map(code -> ", " + code).orElse("") + ", " + lines.when(reading.takenAt(), locale);
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }
}
