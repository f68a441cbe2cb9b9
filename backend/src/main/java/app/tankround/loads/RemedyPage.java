package app.tankround.loads;

import app.tankround.clients.SiteView;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopView;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.units.Mass;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What can be done about a round that does not fit, in words.
 *
 * @param settled whether it fits as it stands
 */
public record RemedyPage(
        String id, int version, String number, String verdict, boolean settled, List<Way> ways, List<Back> backs) {

    /**
     * One way.
     *
     * @param settles whether everything fits then
     * @param fields what the form sends so that it is done
     */
    public record Way(
            String kind, String what, List<String> facts, String price, boolean settles, List<Field> fields) {}

    /** A hidden field of a form. */
    public record Field(String name, String value) {}

    /** Something that was decided and may be taken back. */
    public record Back(String visit, String what) {}

    static RemedyPage of(
            RoundView round, Remedies.Found found, Function<PlannedVisitId, String> names, LoadWords words) {
        Remedy.Burden now = found.now();
        return new RemedyPage(
                round.id().toString(),
                round.version(),
                words.word("loads.number", round.code(), words.date(round.date())),
                verdict(now, "loads.remedy.now.", words),
                now.fits(),
                found.remedies().stream()
                        .map(remedy -> way(round, remedy, names, words))
                        .toList(),
                found.taken().stream().map(taken -> back(taken, words)).toList());
    }

    private static String verdict(Remedy.Burden burden, String codes, LoadWords words) {
        String van = burden.round().van().name();
        if (burden.over().kilograms() > 0) {
            return words.word(codes + "heavy", van, words.mass(burden.over()));
        }
        return burden.overRoom().litres() > 0
                ? words.word(codes + "no-room", van, words.volume(burden.overRoom()))
                : words.word("loads.remedy.fits", van, words.mass(burden.mass()), spare(burden, words));
    }

    private static String spare(Remedy.Burden burden, LoadWords words) {
        return words.mass(Mass.ofKilograms(
                burden.round().van().payload().kilograms() - burden.mass().kilograms()));
    }

    private static Way way(RoundView round, Remedy remedy, Function<PlannedVisitId, String> names, LoadWords words) {
        Remedy.Choice choice = remedy.choice();
        List<String> facts = new ArrayList<>(List.of(verdict(remedy.left(), "loads.remedy.still.", words)));
        remedy.gained()
                .ifPresent(gained -> facts.add(words.word(
                        "loads.remedy.gained",
                        gained.round().van().name(),
                        gained.round().leavesAt().toString(),
                        words.mass(gained.mass()),
                        gained.round().returnsAt().withSecond(0).withNano(0).toString())));
        if (choice.kind() == Remedy.Kind.MIX_ON_SITE) {
            facts.add(words.word("loads.remedy.mixing", MixedOnSite.MINUTES));
        }
        if (choice instanceof Remedy.Choice.Refill refill) {
            facts.add(words.word(
                    "loads.remedy.refilling",
                    refill.litres().values().stream()
                            .mapToInt(RefillOnTheWay::minutes)
                            .sum()));
        }
        if (choice.kind() == Remedy.Kind.SMALLER_CHANGE) {
            facts.add(words.word("loads.remedy.less"));
        }
        if (!remedy.tell().isEmpty()) {
            facts.add(words.word(
                    "loads.remedy.tell",
                    remedy.tell().stream().map(SiteView::title).collect(Collectors.joining(", "))));
        }
        return new Way(
                words.word("loads.remedy.kind." + choice.kind()),
                what(round, remedy, names, words),
                facts,
                words.price(remedy.price()),
                remedy.settles(),
                fields(round, choice));
    }

    private static String what(
            RoundView round, Remedy remedy, Function<PlannedVisitId, String> names, LoadWords words) {
        return switch (remedy.choice()) {
            case Remedy.Choice.Move move -> {
                String sites = round.stops().stream()
                        .filter(stop -> move.stops().contains(stop.id()))
                        .map(StopView::siteName)
                        .collect(Collectors.joining(", "));
                RoundView gained = remedy.gained().orElseThrow().round();
                yield words.word(
                        "loads.remedy.what." + move.kind(),
                        sites,
                        gained.van().name(),
                        gained.trip(),
                        words.date(gained.date()));
            }
            case Remedy.Choice.Mix mix ->
                words.word(
                        "loads.remedy.what.MIX_ON_SITE",
                        mix.visits().stream().map(names).collect(Collectors.joining(", ")));
            case Remedy.Choice.Refill refill ->
                words.word(
                        "loads.remedy.what.REFILL_ON_THE_WAY",
                        round.stops().stream()
                                .flatMap(stop -> stop.plannedVisits().stream()
                                        .flatMap(visit -> Optional.ofNullable(
                                                refill.litres().get(visit))
                                                .stream())
                                        .map(litres -> words.word(
                                                "loads.remedy.refill-at",
                                                words.litres(litres),
                                                stop.position(),
                                                stop.siteName())))
                                .collect(Collectors.joining(", ")));
            case Remedy.Choice.Less less ->
                words.word(
                        "loads.remedy.what.SMALLER_CHANGE",
                        less.litres().entrySet().stream()
                                .map(each -> words.word(
                                        "loads.remedy.less-at",
                                        names.apply(each.getKey()),
                                        words.litres(each.getValue())))
                                .sorted()
                                .collect(Collectors.joining(", ")));
        };
    }

    private static List<Field> fields(RoundView round, Remedy.Choice choice) {
        Stream<Field> what = switch (choice) {
            case Remedy.Choice.Move move ->
                Stream.concat(
                        move.stops().stream().map(stop -> new Field("stops", stop.toString())),
                        Stream.of(
                                new Field("date", move.target().date().toString()),
                                new Field("van", move.target().van().toString()),
                                new Field("trip", String.valueOf(move.target().trip()))));
            case Remedy.Choice.Mix mix -> mix.visits().stream().map(visit -> new Field("visits", visit.toString()));
            case Remedy.Choice.Refill refill -> litres(refill.litres());
            case Remedy.Choice.Less less -> litres(less.litres());
        };
        return Stream.concat(
                        Stream.of(
                                new Field("version", String.valueOf(round.version())),
                                new Field("kind", choice.kind().name())),
                        what)
                .toList();
    }

    private static Stream<Field> litres(Map<PlannedVisitId, BigDecimal> litres) {
        return litres.entrySet().stream()
                .sorted(Map.Entry.comparingByKey(Comparator.comparing(PlannedVisitId::toString)))
                .flatMap(each -> Stream.of(
                        new Field("visits", each.getKey().toString()),
                        new Field("litres", each.getValue().toPlainString())));
    }

    private static Back back(Remedies.Taken taken, LoadWords words) {
        return new Back(
                taken.visit().toString(),
                words.word(
                        "loads.remedy.taken." + taken.kind(),
                        words.word("loads.remedy.at", taken.system().name(), taken.siteName()),
                        taken.litres().map(words::litres).orElse(""),
                        taken.siteName()));
    }
}
