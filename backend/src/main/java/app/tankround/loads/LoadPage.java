package app.tankround.loads;

import app.tankround.accounts.VanView;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** A load sheet in words, ready to be shown. */
public record LoadPage(
        String id,
        int version,
        String number,
        String van,
        String technician,
        String stops,
        String leaves,
        String total,
        String spare,
        String verdict,
        boolean fits,
        boolean lighter,
        String shares,
        LoadScale wide,
        LoadScale narrow,
        List<String> socks,
        List<String> changes,
        boolean toChange,
        List<String> notes,
        List<Group> groups,
        String lifted,
        String fixed,
        String limit,
        String lifting,
        List<Leg> legs,
        List<Mix> mixes,
        List<Stow> stowage,
        int done,
        int lines,
        String closed,
        List<String> leftOut,
        List<Open> toClose) {

    /** A line that is not, or not all, in the van. */
    public record Open(String key, String what, boolean safety) {}

    /** Lines lifted together. */
    public record Group(String title, String remark, List<Row> rows) {}

    /**
     * One line.
     *
     * @param amount of the line as the server reads it back
     * @param who who had the last word on it, and when; empty if nobody had
     * @param shortage what is not there, what goes instead and which stops that endangers; empty where all is there
     * @param missing of it, as it is typed
     * @param factor how many of the line's own unit are one of the unit shown
     * @param workings empty where the line before has told them
     */
    public record Row(
            String key,
            String amount,
            boolean ticked,
            String who,
            String shortage,
            String missing,
            String instead,
            String factor,
            String take,
            String measure,
            String item,
            List<String> facts,
            boolean estimated,
            String each,
            String together,
            String needed,
            List<String> workings) {}

    /**
     * What is in the van on a leg of its way.
     *
     * @param over by how much that is too heavy; empty if it is not
     */
    public record Leg(String from, String mass, String spare, String over) {}

    /** What goes to one place in the van, in the order in which it goes in. */
    public record Stow(String place, List<String> things) {}

    /** Salt water to be mixed the day before. */
    public record Mix(String volume, String salinity, String product, String water, String apart) {}

    private static final int WIDE = 1000;
    private static final int WIDE_STEPS = 8;
    private static final int NARROW = 320;
    private static final int NARROW_STEPS = 3;

    static LoadPage of(LoadSheet sheet, Map<String, LoadTick> ticks, Optional<LoadClosing> closing, LoadWords words) {
        var round = sheet.round();
        Map<LoadGroup, List<LoadLine>> grouped = new LinkedHashMap<>();
        sheet.lines()
                .forEach(line -> grouped.computeIfAbsent(line.group(), none -> new ArrayList<>())
                        .add(line));
        List<Group> groups = grouped.entrySet().stream()
                .map(entry -> new Group(
                        words.word(
                                "loads.group." + entry.getKey() + (areNumbered(entry.getValue()) ? ".numbered" : "")),
                        remark(entry.getKey(), entry.getValue(), words),
                        rows(entry.getValue(), ticks, round.date(), words)))
                .toList();
        int done = (int) groups.stream()
                .flatMap(group -> group.rows().stream())
                .filter(Row::ticked)
                .count();
        List<LoadChange> changes = LoadChange.of(sheet, ticks);
        boolean sickLast = round.stops().stream().anyMatch(stop -> stop.sick());
        return new LoadPage(
                round.id().toString(),
                round.version(),
                words.word("loads.number", round.code(), words.date(round.date())),
                round.trip() == 1
                        ? round.van().name()
                        : words.word("loads.van.further", round.van().name(), round.trip()),
                round.technician().map(person -> person.name()).orElse(words.word("web.none")),
                words.word(
                        sickLast ? "loads.stops-sick" : "loads.stops",
                        round.stops().size()),
                round.leavesAt().toString(),
                words.mass(sheet.total()),
                sheet.fits()
                        ? words.word("loads.spare", words.mass(sheet.payload()), words.mass(sheet.spare()))
                        : words.word("loads.over", words.mass(sheet.payload()), words.mass(sheet.over())),
                sheet.fits()
                        ? words.word(
                                "loads.fits", round.van().name(), words.mass(sheet.total()), words.mass(sheet.spare()))
                        : words.word(
                                "loads.does-not-fit",
                                round.van().name(),
                                words.mass(sheet.total()),
                                words.mass(sheet.over())),
                sheet.fitsOnTheWay(),
                sheet.lighter(),
                String.join(
                        " · ",
                        sheet.shares().stream()
                                .map(share -> LoadScale.label(words, share.kind(), share.mass())
                                        + "\u00a0"
                                        + words.massUnit())
                                .toList()),
                LoadScale.of(sheet, words, WIDE, WIDE_STEPS),
                LoadScale.of(sheet, words, NARROW, NARROW_STEPS),
                sheet.socks().stream()
                        .filter(check -> check.missing() > 0)
                        .map(check -> socks(check, words))
                        .toList(),
                changes.stream()
                        .map(change -> change(change, sheet.round().van(), words))
                        .toList(),
                changes.stream().anyMatch(change -> change.kind() != LoadChange.Kind.ENOUGH),
                sheet.notes().stream().map(words::say).toList(),
                groups,
                words.mass(sheet.lifted()),
                words.mass(sheet.fixedLoad()),
                words.mass(sheet.payload()),
                sheet.drumLift()
                        .filter(lift -> !lift.forEverybody() || areNumbered(sheet.lines()))
                        .map(lift -> lifting(lift, words))
                        .orElse(""),
                sheet.legs().stream().map(leg -> leg(leg, sheet, words)).toList(),
                sheet.depotMixes().stream().map(mix -> mix(mix, words)).toList(),
                Stowage.of(sheet.lines()).stream()
                        .map(stowage -> new Stow(
                                words.word("loads.stow." + stowage.place()),
                                stowage.lines().stream()
                                        .map(line -> stowed(line, words))
                                        .toList()))
                        .toList(),
                done,
                sheet.lines().size(),
                closing.map(last -> words.word(
                                last.version() == round.version() ? "loads.closed" : "loads.closed-before",
                                last.person(),
                                words.moment(last.at(), round.date()),
                                loaders(last)))
                        .orElse(""),
                closing.stream()
                        .flatMap(last -> last.lines().stream())
                        .filter(LoadClosing.Line::isLeft)
                        .map(line -> left(line, words))
                        .toList(),
                sheet.lines().stream()
                        .filter(line -> LoadChange.tick(line, ticks)
                                .filter(tick -> tick.covers(line) && !tick.isShort())
                                .isEmpty())
                        .map(line -> new Open(
                                line.key(),
                                words.amount(line, line.amount()) + " " + words.say(line.item()),
                                line.isSafety()))
                        .toList());
    }

    private static boolean areNumbered(List<LoadLine> lines) {
        return lines.stream().anyMatch(line -> line.container().isPresent());
    }

    private static String loaders(LoadClosing closing) {
        return closing.lines().stream()
                .flatMap(line -> line.person().stream())
                .distinct()
                .sorted()
                .collect(Collectors.joining(", "));
    }

    private static String left(LoadClosing.Line line, LoadWords words) {
        String what = words.word(
                "loads.left",
                words.number(line.planned().subtract(line.loaded())),
                words.number(line.planned()),
                line.item());
        return Stream.of(
                        Optional.of(what),
                        line.instead().map(instead -> words.word("loads.left.instead", instead)),
                        line.reason().map(reason -> words.word("loads.left.reason", reason)))
                .flatMap(Optional::stream)
                .collect(Collectors.joining(" "));
    }

    private static String shortage(LoadLine line, LoadTick tick, LoadWords words) {
        List<StopShare> endangered = line.endangered(tick.missing());
        String stops = line.stops().isEmpty()
                ? words.word("loads.every-stop")
                : endangered.stream()
                        .map(stop -> words.word("loads.leg.stop", stop.position(), stop.siteName()))
                        .collect(Collectors.joining(", "));
        return Stream.of(
                        Optional.of(words.word("loads.short", words.amount(line, tick.missing()))),
                        tick.instead().map(instead -> words.word("loads.left.instead", instead)),
                        Optional.of(words.word("loads.short.endangers", stops)))
                .flatMap(Optional::stream)
                .collect(Collectors.joining(" "));
    }

    private static String change(LoadChange change, VanView van, LoadWords words) {
        String code = "loads.change." + change.kind();
        Optional<LoadLine> line = change.line();
        if (line.isPresent()) {
            return words.word(
                    code,
                    words.amount(line.get(), change.amount()),
                    words.say(line.get().item()));
        }
        return change.drums()
                .map(drums -> words.word(
                        code,
                        drums.number()
                                .map(number -> words.word("loads.change.container", number))
                                .orElseGet(() -> words.number(change.amount())),
                        drums(drums, van, words)))
                .orElseGet(() -> change.kind() == LoadChange.Kind.TAKE_OUT
                        ? words.word(
                                "loads.change.salt",
                                words.mass(Mass.ofKilograms(change.amount().doubleValue())))
                        : words.word("loads.change.other", gone(change.key(), words)));
    }

    /** The name in a key such as {@code media:activated carbon:g}, or a size of socks. */
    private static String gone(String key, LoadWords words) {
        LineKey line = LineKey.of(key);
        if (key.startsWith(LoadRules.CONTAINER_KEY)) {
            return words.word("loads.change.container", line.name());
        }
        if (line.kind().equals(LineKey.SINGLE_WORK)) {
            return words.word("loads.change.single-work");
        }
        if (line.kind().equals(LineKey.SOCK)) {
            return words.word(
                    "loads.change.socks", words.say(LoadText.of("loads.item.socks", Integer.valueOf(line.name()))));
        }
        return line.name().isEmpty() ? line.kind() : line.name();
    }

    private static String drums(LoadChange.Drums drums, VanView van, LoadWords words) {
        String water = drums.salinity()
                .map(salinity ->
                        words.say(LoadText.of("loads.item.salt-water", van.drum(), Salinity.ofPractical(salinity))))
                .orElseGet(() -> words.word("loads.item.ro-di"));
        if (drums.number().isPresent()) {
            return words.word(
                    "loads.change.filled",
                    words.volume(Volume.ofLitres(drums.litres().orElse(0.0))),
                    water);
        }
        return drums.full()
                ? words.word("loads.change.drums", words.volume(van.drum()), water)
                : drums.litres()
                        .map(litres ->
                                words.word("loads.change.drum-with", words.volume(Volume.ofLitres(litres)), water))
                        .orElseGet(() -> words.word("loads.change.drum", water));
    }

    private static Leg leg(LoadSheet.Leg leg, LoadSheet sheet, LoadWords words) {
        double spare = sheet.payload().kilograms() - leg.mass().kilograms();
        String shown = words.mass(Mass.ofKilograms(Math.abs(spare)));
        return new Leg(
                leg.after() == 0
                        ? words.word("loads.leg.depot")
                        : words.word("loads.leg.stop", leg.after(), leg.siteName()),
                words.mass(leg.mass()),
                spare < 0 ? "" : shown,
                spare < 0 ? words.word("loads.leg.over", shown) : "");
    }

    private static String lifting(DrumLift lift, LoadWords words) {
        String said = words.word(
                lift.forEverybody() ? "loads.lifting.within" : "loads.lifting",
                lift.drums(),
                words.mass(lift.heaviest()),
                words.mass(lift.limit()),
                words.number(lift.index(), 1),
                words.length(DrumLift.AHEAD_CM),
                words.length(lift.fromCm()),
                words.length(lift.toCm()),
                DrumLift.TURN_DEGREES);
        return lift.fill()
                .filter(fill -> !lift.forEverybody())
                .map(fill -> words.word("loads.lifting.fill", said, words.volume(fill)))
                .orElse(said);
    }

    private static String remark(LoadGroup group, List<LoadLine> lines, LoadWords words) {
        Optional<Mass> each = lines.stream()
                .filter(line -> line.unit() == LoadUnit.DRUM)
                .flatMap(line -> line.each().stream())
                .findFirst();
        return switch (group) {
            case SALT_WATER, RO_DI_WATER ->
                areNumbered(lines)
                        ? words.word("loads.remark.numbered")
                        : each.map(mass -> words.word("loads.remark.drums", words.mass(mass)))
                                .orElse("");
            case DRY_SALT, SOCKS, SINGLE_WORK, TOOLS, WASTE_CONTAINERS -> words.word("loads.remark." + group);
            case EMPTY_DRUMS, MEDIA, DOSES, TEST_KITS, INSTRUMENTS -> "";
        };
    }

    /** Of containers with the same water, how it came about is told once. */
    private static List<Row> rows(List<LoadLine> lines, Map<String, LoadTick> ticks, LocalDate date, LoadWords words) {
        List<Row> rows = new ArrayList<>();
        for (int k = 0; k < lines.size(); k++) {
            boolean again = k > 0 && isOfSameWater(lines.get(k), lines.get(k - 1));
            rows.add(row(lines.get(k), again, LoadChange.tick(lines.get(k), ticks), date, words));
        }
        return rows;
    }

    private static boolean isOfSameWater(LoadLine line, LoadLine before) {
        return line.container().isPresent()
                && before.container().isPresent()
                && line.assurance().equals(before.assurance())
                && line.workings().stream()
                        .findFirst()
                        .equals(before.workings().stream().findFirst());
    }

    private static Row row(LoadLine line, boolean again, Optional<LoadTick> tick, LocalDate date, LoadWords words) {
        List<String> facts = new ArrayList<>();
        line.apartFor().ifPresent(system -> facts.add(words.word("loads.apart", system)));
        line.container().ifPresent(container -> facts.addAll(how(line, container, words)));
        line.assurance()
                .filter(assurance -> !again)
                .map(Assurance::odds)
                .ifPresent(odds -> facts.add(words.word("loads.enough", odds.enough(), odds.rounds())));
        tick.filter(LoadTick::ticked)
                .filter(said -> !said.covers(line))
                .ifPresent(said ->
                        facts.add(words.word("loads.put-in", said.person(), words.amount(line, said.amount()))));
        Optional<LoadTick> partly = tick.filter(said -> said.isShort() && said.covers(line));
        return new Row(
                line.key(),
                line.amount().stripTrailingZeros().toPlainString(),
                tick.filter(said -> said.covers(line)).isPresent(),
                tick.map(said -> words.word(
                                said.ticked() ? "loads.ticked-by" : "loads.unticked-by",
                                said.person(),
                                words.moment(said.at(), date)))
                        .orElse(""),
                partly.map(said -> shortage(line, said, words)).orElse(""),
                partly.map(said -> words.number(
                                said.missing().divide(words.shownUnit(line.unit()), 3, RoundingMode.HALF_EVEN)))
                        .orElse(""),
                tick.flatMap(LoadTick::instead).orElse(""),
                words.shownUnit(line.unit()).toPlainString(),
                words.take(line),
                words.measure(line),
                words.say(line.item()),
                facts,
                line.estimated(),
                line.each()
                        .filter(mass -> line.amount().compareTo(BigDecimal.ONE) > 0)
                        .map(words::massNumber)
                        .orElse(""),
                line.group() == LoadGroup.TOOLS ? "" : words.mass(line.mass()),
                words.stops(line),
                again ? List.of() : line.workings().stream().map(words::say).toList());
    }

    /** How a container gets into the van. */
    private static List<String> how(LoadLine line, LoadedContainer container, LoadWords words) {
        List<String> facts = new ArrayList<>();
        if (container.pumped()) {
            facts.add(words.word("loads.container.pumped"));
        } else if (line.isLiftedFull()) {
            facts.add(words.word(container.overLimit() ? "loads.container.over-limit" : "loads.container.lifted"));
        } else if (container.overLimit()) {
            facts.add(words.word("loads.container.over-limit-later"));
        }
        if (container.fromPool()) {
            facts.add(words.word("loads.container.from-pool"));
        }
        return facts;
    }

    private static String socks(SockCheck check, LoadWords words) {
        return words.word(
                check.counted() ? "loads.socks-short" : "loads.socks-uncounted",
                check.sizeMm(),
                check.neededHere(),
                check.neededToday(),
                check.onHand(),
                check.missing());
    }

    private static String stowed(LoadLine line, LoadWords words) {
        // The number alone tells a container; what is in it stands above.
        String thing = line.container()
                .map(container -> words.word("loads.stow.container", container.number()))
                .orElseGet(() -> Stream.of(words.take(line), words.measure(line), words.say(line.item()))
                        .filter(word -> !word.isEmpty())
                        .collect(Collectors.joining(" ")));
        String stops = line.stops().isEmpty()
                ? words.word("loads.every-stop")
                : line.stops().stream()
                        .map(stop -> String.valueOf(stop.position()))
                        .collect(Collectors.joining(", "));
        return words.word(line.stops().isEmpty() ? "loads.stow.all" : "loads.stow.line", thing, stops);
    }

    private static Mix mix(DepotMix mix, LoadWords words) {
        return new Mix(
                words.volume(mix.volume()),
                words.number(mix.salinity().practical(), 1),
                words.mass(mix.product()),
                words.volume(mix.water()),
                mix.apartFor()
                        .map(system -> words.word("loads.mix-apart", system))
                        .orElse(""));
    }

    /** Lines that nobody has put into the van yet. */
    public int open() {
        return lines - done;
    }
}
