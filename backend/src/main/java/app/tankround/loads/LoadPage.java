package app.tankround.loads;

import app.tankround.accounts.VanView;
import app.tankround.rounds.RoundView;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.SockSize;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
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
        String stopNames,
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

    /**
     * A row that is not, or not all, in the van.
     *
     * @param key of its first line
     */
    public record Open(String key, String what, boolean safety) {}

    /** Lines lifted together. */
    public record Group(String title, String remark, List<Row> rows) {}

    /**
     * One row: a line, or containers that are filled alike and ticked together or one by one.
     *
     * @param parts one for each line
     * @param ticked whether somebody dealt with all of them
     * @param partly how many of several are dealt with; empty for none, for all and for a single line
     * @param who who had the last word on it, and when; empty if nobody had
     * @param shortage what is not there, what goes instead and which stops that endangers; empty where all is there
     * @param caution what is wrong with it although it can be loaded, with which stops that endangers; empty where nothing is
     * @param missing of it, as it is typed
     * @param factor how many of the line's own unit are one of the unit shown
     * @param numbers of several containers; empty for everything else
     * @param asides what is of no use on paper
     * @param neededShort the same as {@code needed} by positions alone, for paper
     * @param workings empty where the row before has told them
     */
    public record Row(
            List<Part> parts,
            boolean ticked,
            String partly,
            String who,
            String shortage,
            String caution,
            String missing,
            String instead,
            String factor,
            String take,
            String measure,
            String item,
            String numbers,
            List<String> facts,
            List<String> asides,
            boolean estimated,
            String each,
            String together,
            String needed,
            String neededShort,
            List<String> workings) {

        /** Whether it is several containers. */
        public boolean several() {
            return parts.size() > 1;
        }
    }

    /**
     * What is ticked by itself.
     *
     * @param amount of the line as the server reads it back
     * @param name the number of one of several containers; empty for a single line
     * @param missing whether it is ticked without being there
     * @param needed empty where all of the row are for the same stops
     */
    public record Part(
            String key, String amount, boolean ticked, String name, String who, boolean missing, String needed) {}

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

    /** @param lots from which what is not in the van yet is taken, by the keys of the lines */
    static LoadPage of(
            LoadSheet sheet,
            Map<String, LoadTick> ticks,
            Optional<LoadClosing> closing,
            Map<String, List<LoadedStock.OfLot>> lots,
            LoadWords words) {
        var round = sheet.round();
        Map<LoadGroup, List<LoadLine>> grouped = new LinkedHashMap<>();
        sheet.lines()
                .forEach(line -> grouped.computeIfAbsent(line.group(), none -> new ArrayList<>())
                        .add(line));
        List<Group> groups = grouped.entrySet().stream()
                .map(entry -> new Group(
                        words.word(
                                "loads.group." + entry.getKey() + (areNumbered(entry.getValue()) ? ".numbered" : "")),
                        // Of containers it holds for all water, so it is said with the first.
                        entry.getKey() == LoadGroup.RO_DI_WATER
                                        && areNumbered(entry.getValue())
                                        && grouped.containsKey(LoadGroup.SALT_WATER)
                                ? ""
                                : remark(entry.getKey(), entry.getValue(), words),
                        rows(entry.getValue(), ticks, lots, round, words)))
                .toList();
        List<Row> rows = groups.stream().flatMap(group -> group.rows().stream()).toList();
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
                round.stops().stream()
                        .map(stop -> words.word("loads.leg.stop", stop.position(), stop.siteName()))
                        .collect(Collectors.joining(" \u00b7 ")),
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
                        .map(stowage ->
                                new Stow(words.word("loads.stow." + stowage.place()), stowed(stowage.lines(), words)))
                        .toList(),
                (int) rows.stream().filter(Row::ticked).count(),
                rows.size(),
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
                LoadRow.of(sheet.lines()).stream()
                        .flatMap(row -> open(row, ticks, words).stream())
                        .toList());
    }

    private static Optional<Open> open(LoadRow row, Map<String, LoadTick> ticks, LoadWords words) {
        List<LoadLine> open = row.lines().stream()
                .filter(line -> LoadChange.tick(line, ticks)
                        .filter(tick -> tick.covers(line) && !tick.isShort())
                        .isEmpty())
                .toList();
        if (open.isEmpty()) {
            return Optional.empty();
        }
        LoadRow left = new LoadRow(open);
        String what = Stream.of(
                        words.take(left),
                        words.measure(left),
                        words.say(left.first().item()),
                        words.numbers(left))
                .filter(word -> !word.isEmpty())
                .collect(Collectors.joining(" "));
        return Optional.of(new Open(row.first().key(), what, row.first().isSafety()));
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

    private static String caution(LoadCaution caution, LoadWords words) {
        return words.say(caution.what()) + " "
                + words.word(
                        "loads.short.endangers",
                        caution.without().stream()
                                .map(stop -> words.word("loads.leg.stop", stop.position(), stop.siteName()))
                                .collect(Collectors.joining(", ")))
                + " " + words.word("loads.kit.another");
    }

    /** What is not there of a row; empty where all of it is, or nobody has said so. */
    private static String shortage(LoadRow row, Map<LoadLine, LoadTick> shorts, LoadWords words) {
        if (shorts.isEmpty()) {
            return "";
        }
        String missing = row.isSeveral()
                ? words.word(
                        "loads.short.numbers",
                        shorts.size(),
                        ContainerNumbers.ofContainers(List.copyOf(shorts.keySet())))
                : words.word(
                        "loads.short",
                        words.amount(
                                row.first(), shorts.values().iterator().next().missing()));
        String stops = row.first().stops().isEmpty()
                ? words.word("loads.every-stop")
                : shorts.entrySet().stream()
                        .flatMap(
                                each -> each.getKey().endangered(each.getValue().missing()).stream())
                        .sorted(Comparator.comparingInt(StopShare::position))
                        .map(stop -> words.word("loads.leg.stop", stop.position(), stop.siteName()))
                        .distinct()
                        .collect(Collectors.joining(", "));
        return Stream.of(
                        Stream.of(missing),
                        shorts.values().stream()
                                .flatMap(tick -> tick.instead().stream())
                                .distinct()
                                .map(instead -> words.word("loads.left.instead", instead)),
                        Stream.of(words.word("loads.short.endangers", stops)))
                .flatMap(each -> each)
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
        if (Refill.siteOf(key).isPresent()) {
            return words.word("loads.change.refill-drums");
        }
        Optional<SockSize> size = line.sockSize();
        if (size.isPresent()) {
            return words.word("loads.change.socks", size.get().text());
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
            case FILLED_ON_THE_WAY, DRY_SALT, SOCKS, SINGLE_WORK, TOOLS, WASTE_CONTAINERS ->
                words.word("loads.remark." + group);
            case EMPTY_DRUMS, MEDIA, DOSES, TEST_KITS, INSTRUMENTS -> "";
        };
    }

    /** Of containers with the same water, how it came about is told once. */
    private static List<Row> rows(
            List<LoadLine> lines,
            Map<String, LoadTick> ticks,
            Map<String, List<LoadedStock.OfLot>> lots,
            RoundView round,
            LoadWords words) {
        List<LoadRow> together = LoadRow.of(lines);
        List<Row> rows = new ArrayList<>();
        for (int k = 0; k < together.size(); k++) {
            boolean again = k > 0
                    && isOfSameWater(
                            together.get(k).first(), together.get(k - 1).first());
            rows.add(row(together.get(k), again, ticks, lots, round, words));
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

    private static Row row(
            LoadRow row,
            boolean again,
            Map<String, LoadTick> ticks,
            Map<String, List<LoadedStock.OfLot>> lots,
            RoundView round,
            LoadWords words) {
        LoadLine first = row.first();
        List<Part> parts = row.lines().stream()
                .map(line -> part(row, line, LoadChange.tick(line, ticks), round.date(), words))
                .toList();
        int dealtWith = (int) parts.stream().filter(Part::ticked).count();
        List<String> facts = new ArrayList<>();
        List<String> asides = new ArrayList<>();
        first.apartFor().ifPresent(system -> facts.add(words.word("loads.apart", system)));
        Optional.ofNullable(lots.get(first.key()))
                .filter(all -> !all.isEmpty())
                .ifPresent(all -> facts.add(lots(all, words)));
        first.container().ifPresent(container -> how(first, container, facts, asides, words));
        first.assurance()
                .filter(assurance -> !again)
                .map(Assurance::odds)
                .ifPresent(odds -> asides.add(words.word("loads.enough", odds.enough(), odds.rounds())));
        Map<LoadLine, LoadTick> shorts = new LinkedHashMap<>();
        row.lines()
                .forEach(line -> LoadChange.tick(line, ticks)
                        .filter(LoadTick::ticked)
                        .ifPresent(said -> {
                            if (!said.covers(line)) {
                                facts.add(words.word("loads.put-in", said.person(), words.amount(line, said.amount())));
                            } else if (said.isShort()) {
                                shorts.put(line, said);
                            }
                        }));
        BigDecimal missing = shorts.values().stream().map(LoadTick::missing).reduce(BigDecimal.ZERO, BigDecimal::add);
        return new Row(
                parts,
                dealtWith == parts.size(),
                dealtWith > 0 && dealtWith < parts.size() ? words.word("loads.partly", dealtWith, parts.size()) : "",
                parts.stream()
                        .map(Part::who)
                        .filter(who -> !who.isEmpty())
                        .distinct()
                        .collect(Collectors.joining(" \u00b7 ")),
                shortage(row, shorts, words),
                first.caution().map(caution -> caution(caution, words)).orElse(""),
                shorts.isEmpty()
                        ? ""
                        : words.number(missing.divide(words.shownUnit(first.unit()), 3, RoundingMode.HALF_EVEN)),
                row.lines().stream()
                        .flatMap(line -> LoadChange.tick(line, ticks).flatMap(LoadTick::instead).stream())
                        .findFirst()
                        .orElse(""),
                words.shownUnit(first.unit()).toPlainString(),
                words.take(row),
                words.measure(row),
                words.say(first.item()),
                words.numbers(row),
                facts,
                asides,
                first.estimated(),
                row.each().map(words::massNumber).orElse(""),
                first.group() == LoadGroup.TOOLS ? "" : words.mass(row.mass()),
                words.stops(row),
                words.stopsShort(row, round.stops().size()),
                again ? List.of() : first.workings().stream().map(words::say).toList());
    }

    /** From which lot to take it, and from which then. */
    private static String lots(List<LoadedStock.OfLot> lots, LoadWords words) {
        return words.word(
                "loads.lot",
                lots.stream()
                        .map(each -> {
                            String number = each.lot()
                                    .expiresOn()
                                    .map(last -> words.word(
                                            "loads.lot.until", each.lot().number(), words.shortDate(last)))
                                    .orElse(each.lot().number());
                            return lots.size() == 1
                                    ? number
                                    : words.word(
                                            "loads.lot.part",
                                            number,
                                            words.amount(each.amount(), LoadUnit.ofCode(each.unit())));
                        })
                        .collect(Collectors.joining(words.word("loads.lot.then"))));
    }

    private static Part part(LoadRow row, LoadLine line, Optional<LoadTick> tick, LocalDate date, LoadWords words) {
        return new Part(
                line.key(),
                line.amount().stripTrailingZeros().toPlainString(),
                tick.filter(said -> said.covers(line)).isPresent(),
                row.isSeveral() ? line.container().map(LoadedContainer::number).orElse("") : "",
                tick.map(said -> words.word(
                                said.ticked() ? "loads.ticked-by" : "loads.unticked-by",
                                said.person(),
                                words.moment(said.at(), date)))
                        .orElse(""),
                tick.filter(said -> said.isShort() && said.covers(line)).isPresent(),
                row.isServedAlike() ? "" : words.stops(new LoadRow(List.of(line))));
    }

    /** How a container gets into the van; that all is as it should be is told on the screen alone. */
    private static void how(
            LoadLine line, LoadedContainer container, List<String> facts, List<String> asides, LoadWords words) {
        if (container.pumped()) {
            asides.add(words.word("loads.container.pumped"));
        } else if (line.isLiftedFull()) {
            if (container.overLimit()) {
                facts.add(words.word("loads.container.over-limit"));
            } else {
                asides.add(words.word("loads.container.lifted"));
            }
        } else if (container.overLimit()) {
            facts.add(words.word("loads.container.over-limit-later"));
        } else if (line.refill().isPresent()) {
            facts.add(words.word("loads.container.lifted-later"));
        }
        if (container.fromPool()) {
            facts.add(words.word("loads.container.from-pool"));
        }
    }

    private static String socks(SockCheck check, LoadWords words) {
        return words.word(
                check.counted() ? "loads.socks-short" : "loads.socks-uncounted",
                check.size().text(),
                check.neededHere(),
                check.neededToday(),
                check.onHand(),
                check.missing());
    }

    /** What goes to one place; what follows each other and is for the same stops is told together. */
    private static List<String> stowed(List<LoadLine> lines, LoadWords words) {
        List<List<LoadLine>> together = new ArrayList<>();
        for (LoadLine line : lines) {
            if (!together.isEmpty() && positions(together.getLast().getFirst()).equals(positions(line))) {
                together.getLast().add(line);
            } else {
                together.add(new ArrayList<>(List.of(line)));
            }
        }
        return together.stream().map(each -> stowedTogether(each, words)).toList();
    }

    private static List<Integer> positions(LoadLine line) {
        return line.stops().stream().map(StopShare::position).toList();
    }

    private static String stowedTogether(List<LoadLine> lines, LoadWords words) {
        List<LoadLine> numbered =
                lines.stream().filter(line -> line.container().isPresent()).toList();
        String things = Stream.concat(
                        // The number alone tells a container; what is in it stands above.
                        numbered.isEmpty()
                                ? Stream.of()
                                : Stream.of(words.word(
                                        "loads.stow.container",
                                        numbered.size(),
                                        ContainerNumbers.ofContainers(numbered))),
                        lines.stream()
                                .filter(line -> line.container().isEmpty())
                                .map(line -> stowedThing(line, words)))
                .collect(Collectors.joining(", "));
        List<Integer> positions = positions(lines.getFirst());
        return positions.isEmpty()
                ? words.word("loads.stow.all", things, words.word("loads.every-stop"))
                : words.word(
                        "loads.stow.line",
                        things,
                        positions.stream().map(String::valueOf).collect(Collectors.joining(", ")));
    }

    private static String stowedThing(LoadLine line, LoadWords words) {
        String measure = words.measure(line);
        return Stream.of(measure.isEmpty() ? "" : words.take(line), measure, words.say(line.item()))
                .filter(word -> !word.isEmpty())
                .collect(Collectors.joining(" "));
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

    /** Rows that nobody has put into the van yet. */
    public int open() {
        return lines - done;
    }
}
