package app.tankround.readings.web;

import app.tankround.chemistry.ShownDigits;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentEvidence;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentView;
import app.tankround.readings.ComparisonWords;
import app.tankround.readings.DoubtWitness;
import app.tankround.readings.DoubtWitnesses;
import app.tankround.readings.ReadingView;
import app.tankround.readings.SampleComparisons;
import app.tankround.readings.UnderWay;
import app.tankround.readings.VerdictWords;
import app.tankround.units.Quantity;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** What trusted instruments showed beside one that is suspect or condemned, in words. */
@Component
class DoubtWitnessWords implements InstrumentEvidence {

    private static final MathContext THREE_DIGITS = new MathContext(3, RoundingMode.HALF_EVEN);

    private final DoubtWitnesses witnesses;
    private final SampleComparisons comparisons;
    private final ComparisonWords comparisonWords;
    private final CalibrationService calibrations;
    private final UnderWay underWay;
    private final ReadingLines lines;
    private final VerdictWords words;
    private final MessageSource messages;

    DoubtWitnessWords(
            DoubtWitnesses witnesses,
            SampleComparisons comparisons,
            ComparisonWords comparisonWords,
            CalibrationService calibrations,
            UnderWay underWay,
            ReadingLines lines,
            VerdictWords words,
            MessageSource messages) {
        this.witnesses = witnesses;
        this.comparisons = comparisons;
        this.comparisonWords = comparisonWords;
        this.calibrations = calibrations;
        this.underWay = underWay;
        this.lines = lines;
        this.words = words;
        this.messages = messages;
    }

    /**
     * What the other instruments showed, then the plans that are followed because of it; of one that is trusted, where it
     * stands beside a suspect or condemned one on one sample; and with which others it disagrees.
     */
    @Override
    public List<Said> of(InstrumentView instrument) {
        Locale locale = LocaleContextHolder.getLocale();
        ReadingLines.Page page = lines.page(locale);
        List<Said> said = new ArrayList<>(of(instrument.id(), locale));
        Set<InstrumentId> told = witnesses.of(instrument.id()).stream()
                .flatMap(witness -> witness.other().instrumentId().stream())
                .collect(Collectors.toSet());
        for (DoubtWitness witness : witnesses.against(instrument.id())) {
            if (told.add(witness.doubted().instrumentId().orElseThrow())) {
                said.add(new Said(
                        sentences(witness, page, locale),
                        "/instruments/" + witness.doubted().instrumentId().orElseThrow()));
            }
        }
        comparisons.disagreeing(instrument.id()).stream()
                .filter(each -> told.add(each.compared().other().instrumentId().orElseThrow()))
                .map(each -> disagreement(each, page, locale))
                .forEach(said::add);
        return said;
    }

    private Said disagreement(SampleComparisons.Disagreement each, ReadingLines.Page page, Locale locale) {
        ComparisonWords.Words compared = comparisonWords.of(each.compared(), locale);
        return new Said(
                text(
                        "readings.disagreement",
                        locale,
                        page.where(each.reading().systemId()),
                        page.when(each.reading().takenAt()),
                        each.compared().code(),
                        shown(each.reading(), locale),
                        compared.other(),
                        compared.sentence(),
                        compared.likelier().orElse(""),
                        String.join(" ", compared.next())),
                "/readings/" + each.reading().id());
    }

    List<Said> of(InstrumentId instrument, Locale locale) {
        ReadingLines.Page page = lines.page(locale);
        List<Said> said = new ArrayList<>();
        Set<Said> plans = new LinkedHashSet<>();
        for (DoubtWitness witness : witnesses.of(instrument)) {
            said.add(new Said(
                    sentences(witness, page, locale),
                    "/readings/" + witness.other().id()));
            plan(witness)
                    .map(plan -> new Said(
                            text(
                                    "readings.witness.plan",
                                    locale,
                                    page.name(witness.other()),
                                    page.where(witness.other().systemId()),
                                    code(page, witness.other())),
                            plan.page()))
                    .ifPresent(plans::add);
        }
        said.addAll(plans);
        return said;
    }

    /** The plan that is followed because of what the trusted instrument showed. */
    Optional<UnderWay.Followed> plan(DoubtWitness witness) {
        ReadingView other = witness.other();
        return underWay.followed(other.systemId(), other.quantity())
                .filter(plan -> plan.restsOn().equals(other.id()));
    }

    private String sentences(DoubtWitness witness, ReadingLines.Page page, Locale locale) {
        ReadingView other = witness.other();
        String own = code(page, witness.doubted());
        List<String> said = new ArrayList<>();
        said.add(text(
                witness.isBefore() ? "readings.witness.before" : "readings.witness.after",
                locale,
                page.where(other.systemId()),
                code(page, other),
                shown(other, locale),
                page.when(other.takenAt()),
                apart(witness.apart(), locale),
                own,
                words.asWritten(witness.doubted(), locale)));
        witness.asBelieved()
                .map(compared -> compared(
                        "readings.witness.believed",
                        witness,
                        shown(witness.doubted().assessedAs(witness.believed()), locale),
                        compared,
                        page,
                        locale))
                .ifPresent(said::add);
        witness.asCorrected()
                .map(compared -> compared(
                        "readings.witness.corrected",
                        witness,
                        shown(witness.doubted(), locale),
                        compared,
                        page,
                        locale))
                .ifPresent(said::add);
        conclusion(witness)
                .map(variant -> text("readings.witness." + variant, locale, own, code(page, other)))
                .ifPresent(said::add);
        beyond(other)
                .map(end -> text(
                        "readings.witness.beyond",
                        locale,
                        code(page, other),
                        NumberText.plain(BigDecimal.valueOf(end.low()).round(THREE_DIGITS), locale),
                        NumberText.plain(BigDecimal.valueOf(end.high()).round(THREE_DIGITS), locale)))
                .ifPresent(said::add);
        return String.join(" ", said);
    }

    private String compared(
            String code,
            DoubtWitness witness,
            String shown,
            DoubtWitness.Compared compared,
            ReadingLines.Page page,
            Locale locale) {
        String difference = difference(witness.doubted(), witness.isOfSalinity(), compared, locale);
        String variant = compared.normalizedError().isEmpty() ? ".open" : compared.agrees() ? ".agree" : ".disagree";
        return text(
                code + variant,
                locale,
                shown,
                difference,
                normalizedError(compared, locale),
                code(page, witness.doubted()),
                code(page, witness.other()));
    }

    /** Such as S 10.4 lower: what a sign means is not left to the reader. */
    String difference(ReadingView doubted, boolean salinity, DoubtWitness.Compared compared, Locale locale) {
        String figure = NumberText.plain(
                rounded(Math.abs(compared.difference()), ShownDigits.decimals(compared.uncertainty())), locale);
        String size = salinity
                ? "S\u00a0" + figure
                : doubted.quantity() == Quantity.PH
                        ? figure
                        : figure + "\u00a0" + doubted.unit().symbol();
        return text(compared.difference() < 0 ? "readings.witness.lower" : "readings.witness.higher", locale, size);
    }

    /** Without its sign, which the difference tells. */
    String normalizedError(DoubtWitness.Compared compared, Locale locale) {
        return compared.normalizedError()
                .map(error -> NumberText.plain(rounded(Math.abs(error), 1), locale))
                .orElse("");
    }

    private static BigDecimal rounded(double size, int decimals) {
        return BigDecimal.valueOf(size).setScale(decimals, RoundingMode.HALF_EVEN);
    }

    /** Where one reading of the instrument agrees with the other and the other does not, it says which of two is wrong. */
    private static Optional<String> conclusion(DoubtWitness witness) {
        return witness.asBelieved()
                .flatMap(believed -> witness.asCorrected()
                        .filter(corrected -> corrected.agrees() != believed.agrees())
                        .map(corrected -> corrected.agrees() ? "against" : "for"));
    }

    /** The ends of where the other instrument was checked, if what it showed lies beyond them; one point has no beyond. */
    private Optional<CalibrationHistory.Span> beyond(ReadingView other) {
        return other.instrumentId()
                .map(calibrations::history)
                .flatMap(history -> history.checkedSpanAt(other.takenAt()))
                .filter(span -> !span.isOnePoint())
                .filter(span -> other.value()
                        .map(BigDecimal::doubleValue)
                        .filter(value -> !span.covers(value))
                        .isPresent());
    }

    private String shown(ReadingView reading, Locale locale) {
        return words.corrected(reading, locale)
                .orElseGet(() -> words.asWritten(reading, locale))
                .replace(" ± ", "\u00a0±\u00a0");
    }

    /** Minutes up to an hour, then hours. */
    String apart(Duration apart, Locale locale) {
        long minutes = Math.round(apart.toSeconds() / 60.0);
        return minutes < 60
                ? text("readings.witness.minutes", locale, minutes)
                : text("readings.witness.hours", locale, Math.round(minutes / 60.0));
    }

    private static String code(ReadingLines.Page page, ReadingView reading) {
        return reading.instrumentId().map(page::code).orElse("");
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }
}
