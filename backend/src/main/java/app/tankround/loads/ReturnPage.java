package app.tankround.loads;

import app.tankround.web.Choice;
import java.math.BigDecimal;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * The return of a round in words, ready to be shown.
 *
 * @param open sites of which nothing is known yet; empty if all visits are finished
 */
public record ReturnPage(
        String id, String number, String van, boolean closed, String open, List<Row> rows, List<Told> told) {

    /**
     * One thing.
     *
     * @param item with the system that it is for alone
     * @param unit of what is typed
     * @param factor how many of the thing's own unit one of that is
     * @param expected what should still be in the van, in the thing's own unit
     * @param left the same in words
     * @param over what visits used beyond what was loaded; empty if that is nothing
     * @param uses who used how much
     * @param ways of water, what may become of what is back, the one that is offered first; else empty
     * @param apart of water that was opened for a sick system alone, that it goes nowhere else; else empty
     */
    public record Row(
            int index,
            String key,
            String item,
            String unit,
            BigDecimal factor,
            BigDecimal expected,
            String loaded,
            String used,
            String settled,
            String left,
            String over,
            List<String> uses,
            List<Choice> ways,
            String apart) {}

    /** A return that was told. */
    public record Told(String who, List<String> lines) {}

    static ReturnPage of(
            ReturnSheet sheet, LoadWords words, Function<ReturnSheet.Thing, List<ReturnedWater.Way>> water) {
        var round = sheet.round();
        return new ReturnPage(
                round.id().toString(),
                words.word("loads.number", round.code(), words.date(round.date())),
                round.van().name(),
                sheet.closed(),
                String.join("; ", sheet.open()),
                IntStream.range(0, sheet.things().size())
                        .mapToObj(index -> row(index, sheet.things().get(index), words, water))
                        .toList(),
                sheet.told().stream()
                        .map(told -> new Told(
                                words.word("loads.return.told", told.person(), words.moment(told.at(), round.date())),
                                told.lines().stream()
                                        .map(line -> told(line, words))
                                        .toList()))
                        .toList());
    }

    private static Row row(
            int index,
            ReturnSheet.Thing thing,
            LoadWords words,
            Function<ReturnSheet.Thing, List<ReturnedWater.Way>> water) {
        LoadUnit unit = thing.unit();
        BigDecimal beyond = thing.balance().negate();
        return new Row(
                index,
                thing.key(),
                words.say(thing.item()),
                words.unit(unit, 2),
                words.shownUnit(unit),
                thing.left(),
                words.amount(thing.loaded(), unit),
                words.amount(thing.used(), unit),
                thing.settled().signum() == 0 ? "" : words.amount(thing.settled(), unit),
                words.amount(thing.left(), unit),
                beyond.signum() > 0 ? words.amount(beyond, unit) : "",
                thing.uses().stream()
                        .map(use -> words.word(
                                use.asPlanned() ? "loads.return.use-planned" : "loads.return.use",
                                use.position(),
                                use.siteName(),
                                use.systemName(),
                                words.amount(use.amount(), unit)))
                        .toList(),
                thing.isWater()
                        ? water.apply(thing).stream()
                                .map(way -> new Choice(way.value(), way.words()))
                                .toList()
                        : List.of(),
                thing.isWater() && thing.isApart()
                        ? words.word(
                                "loads.return.goes.apart",
                                thing.uses().stream()
                                        .map(ReturnSheet.Use::systemName)
                                        .distinct()
                                        .collect(Collectors.joining(", ")))
                        : "");
    }

    private static String told(ReturnSheet.Line line, LoadWords words) {
        StringBuilder said = new StringBuilder(words.word(
                "loads.return.line",
                line.item(),
                words.amount(line.loaded(), line.unit()),
                words.amount(line.used(), line.unit())));
        say(said, "back", line.back(), line, words);
        say(said, "stays", line.stays(), line, words);
        say(said, "wasted", line.wasted(), line, words);
        say(said, "broken", line.broken(), line, words);
        say(said, "missing", line.missing(), line, words);
        say(said, "more", line.missing().negate(), line, words);
        line.goes()
                .ifPresent(goes -> said.append(' ').append(words.word("loads.return.line." + goes.what(), goes.vat())));
        line.reason().ifPresent(reason -> said.append(' ').append(words.word("loads.return.reason", reason)));
        return said.toString();
    }

    private static void say(
            StringBuilder said, String what, BigDecimal amount, ReturnSheet.Line line, LoadWords words) {
        if (amount.signum() > 0) {
            said.append(' ').append(words.word("loads.return.line." + what, words.amount(amount, line.unit())));
        }
    }
}
