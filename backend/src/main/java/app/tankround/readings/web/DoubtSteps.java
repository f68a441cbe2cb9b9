package app.tankround.readings.web;

import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.instruments.InstrumentChoices;
import app.tankround.instruments.InstrumentSteps;
import app.tankround.instruments.InstrumentView;
import app.tankround.readings.DoubtListView;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.DoubtWitness;
import app.tankround.readings.DoubtWitnesses;
import app.tankround.readings.ReadingPlace;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.SampleComparisons;
import app.tankround.readings.UnderWay;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** Sends whoever looks at an instrument to what it brought into doubt. */
@Component
class DoubtSteps implements InstrumentSteps {

    /** So many waters are named; the rest stand on the page of doubts. */
    private static final int MOST_NAMED = 6;

    /** So many are named to begin with. */
    private static final int MOST_FIRST = 3;

    private final DoubtLists lists;
    private final ReadingService readings;
    private final InstrumentChoices choices;
    private final SampleComparisons comparisons;
    private final MessageSource messages;
    private final DoubtWitnesses witnesses;
    private final DoubtWitnessWords said;
    private final ReadingLines lines;
    private final WaterSystems systems;
    private final SiteService sites;

    DoubtSteps(
            DoubtLists lists,
            ReadingService readings,
            InstrumentChoices choices,
            SampleComparisons comparisons,
            MessageSource messages,
            DoubtWitnesses witnesses,
            DoubtWitnessWords said,
            ReadingLines lines,
            WaterSystems systems,
            SiteService sites) {
        this.lists = lists;
        this.readings = readings;
        this.choices = choices;
        this.comparisons = comparisons;
        this.messages = messages;
        this.witnesses = witnesses;
        this.said = said;
        this.lines = lines;
        this.systems = systems;
        this.sites = sites;
    }

    @Override
    public List<Step> of(InstrumentView instrument) {
        List<Step> steps = new ArrayList<>();
        List<ReadingView> today = lists.suspects().stream()
                .filter(suspect -> suspect.instrument().id().equals(instrument.id()))
                .flatMap(suspect -> suspect.measureToday().stream())
                .toList();
        steps.addAll(measure(instrument, today));
        comparisons.disagreeing(instrument.id()).forEach(each -> steps.add(settle(each)));
        steps.addAll(known(instrument));
        List<DoubtListView> open =
                lists.of(instrument.id()).stream().filter(DoubtListView::isOpen).toList();
        open.forEach(list -> steps.add(step(list)));
        ReadingService.Disbelieved count = readings.countDisbelieved(instrument.id());
        if (open.isEmpty() && count.readings() > 0) {
            steps.add(inDoubt(instrument, count, today));
        }
        return steps;
    }

    /** What is measured again at the next visit, the nearest to danger first, or that nothing need be. */
    private Step inDoubt(InstrumentView instrument, ReadingService.Disbelieved count, List<ReadingView> today) {
        ReadingLines.Page page = lines.page(LocaleContextHolder.getLocale());
        List<ReadingView> alone = lists.notMeasuredAgain(instrument.id(), Instant.EPOCH);
        List<ReadingView> later = alone.stream()
                .filter(reading -> today.stream().noneMatch(named -> named.id().equals(reading.id())))
                .toList();
        String variant = !later.isEmpty() ? "" : alone.isEmpty() ? ".measured" : ".named";
        return new Step(
                "readings.step.in-doubt" + variant,
                List.of(
                        count.readings(),
                        count.systems(),
                        later.stream()
                                .limit(MOST_FIRST)
                                .map(reading -> page.name(reading) + ", " + place(reading, page))
                                .collect(Collectors.joining("; ")),
                        Math.max(0, later.size() - MOST_FIRST),
                        instrument.code()),
                Optional.of("/instruments/" + instrument.id() + "#readings-in-doubt"));
    }

    /** What settles a disagreement with another instrument on one sample. */
    private Step settle(SampleComparisons.Disagreement each) {
        SampleComparisons.Compared compared = each.compared();
        ReadingLines.Page page = lines.page(LocaleContextHolder.getLocale());
        return new Step(
                compared.likelierWrong().isPresent() ? "readings.step.disagree" : "readings.step.disagree.open",
                List.of(
                        place(each.reading(), page),
                        compared.code(),
                        compared.otherCode(),
                        compared.likelierWrong().orElse("")),
                Optional.of("/readings/" + each.reading().id()));
    }

    /** What is known of a water by the other instrument that its newest reading stands beside. */
    private List<Step> known(InstrumentView instrument) {
        Locale locale = LocaleContextHolder.getLocale();
        ReadingLines.Page page = lines.page(locale);
        Set<ReadingPlace> told = new HashSet<>();
        return witnesses.of(instrument.id()).stream()
                .filter(witness -> told.add(witness.doubted().stated().place()))
                .filter(DoubtWitness::isOfOneSample)
                .map(witness -> known(witness, page, locale))
                .toList();
    }

    private Step known(DoubtWitness witness, ReadingLines.Page page, Locale locale) {
        ReadingView other = witness.other();
        Optional<String> plan = said.plan(witness).map(UnderWay.Followed::page);
        return new Step(
                plan.isPresent() ? "readings.step.plan" : "readings.step.rely",
                List.of(
                        other.instrumentId().map(page::code).orElse(""),
                        page.name(other),
                        place(other, page),
                        page.of(other).words().corrected().orElse("").replace(" ± ", "\u00a0±\u00a0"),
                        page.when(other.takenAt()),
                        said.apart(witness.apart(), locale),
                        witness.isBefore() ? 1 : 0,
                        witness.doubted().instrumentId().map(page::code).orElse(""),
                        page.of(witness.doubted()).words().asWritten()),
                Optional.of(plan.orElse("/systems/" + other.systemId())));
    }

    private String place(ReadingView reading, ReadingLines.Page page) {
        WaterSystemView system = systems.require(reading.systemId());
        return Stream.concat(
                        Stream.of(page.where(system.id())),
                        sites.find(system.siteId()).map(SiteView::clientName).stream())
                .filter(part -> !part.isEmpty())
                .collect(Collectors.joining(", "));
    }

    private List<Step> measure(InstrumentView instrument, List<ReadingView> today) {
        ReadingLines.Page page = lines.page(LocaleContextHolder.getLocale());
        List<Step> steps = new ArrayList<>();
        today.stream()
                .limit(MOST_NAMED)
                .forEach(reading -> steps.add(measure(reading, other(instrument, reading), page)));
        int more = today.size() - steps.size();
        if (more > 0) {
            steps.add(new Step("readings.step.measure-more", List.of(more), Optional.of("/doubts")));
        }
        return steps;
    }

    /** The one to take, with a warning where none that is trusted was checked as far as that water lies. */
    private String other(InstrumentView instrument, ReadingView reading) {
        return choices.insteadOf(
                        instrument,
                        reading.assessment().correctedValue().stream().toList())
                .map(instead -> instead.covers()
                        ? instead.instrument().code()
                        : messages.getMessage(
                                "readings.step.beyond",
                                new Object[] {instead.instrument().code()},
                                LocaleContextHolder.getLocale()))
                .orElse("");
    }

    private Step measure(ReadingView reading, String other, ReadingLines.Page page) {
        ReadingLines.Line line = page.of(reading);
        Optional<String> corrected = line.words().corrected();
        String variant = corrected.isEmpty() ? "" : reading.quantity() == Quantity.SALINITY ? ".salinity" : ".really";
        return new Step(
                "readings.step.measure-today" + variant,
                List.of(
                        line.quantity(),
                        place(reading, page),
                        other.isEmpty() ? 0 : 1,
                        other,
                        line.words().asWritten(),
                        line.when(),
                        corrected.orElse("").replace(" ± ", "\u00a0±\u00a0"),
                        line.target()),
                Optional.of("/systems/" + reading.systemId()));
    }

    private static Step step(DoubtListView list) {
        return new Step(
                "readings.step.doubt-list", List.of(list.open(), list.lines()), Optional.of("/doubts/" + list.id()));
    }
}
