package app.tankround.loads;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What has to be done to a van that was loaded already because its round has changed since.
 *
 * @param line as it stands now; empty where nothing of the kind is needed any more
 * @param key of the line that was ticked
 * @param amount how much is to be added or is more than needed, above 0, in the unit of the line
 */
record LoadChange(Kind kind, Optional<LoadLine> line, String key, BigDecimal amount) {

    /** What to do. */
    enum Kind {
        ADD,
        /** Water and salt that nobody needs are mass, and in the way. */
        TAKE_OUT,
        /** It may stay. */
        ENOUGH
    }

    private static final String NOT_FULL = ":rest";
    private static final Pattern DRUMS = Pattern.compile(
            "(?:salt-water:([0-9.]+)|ro-di)(?::[0-9a-f-]{36})?:(?:(full)|rest(?::([0-9.]+))?|no:([^:]+):([0-9.]+))");

    /**
     * Drums that were put in and that nobody needs now.
     *
     * @param salinity practical; empty for RO/DI water
     * @param litres in a drum that is not full, or in a container; empty for full drums, or where it was not kept
     * @param number of a container; empty for drums of the van's usual size
     */
    record Drums(Optional<Double> salinity, boolean full, Optional<Double> litres, Optional<String> number) {}

    /** In the order of the sheet, and then what is not on it any more. */
    static List<LoadChange> of(LoadSheet sheet, Map<String, LoadTick> ticks) {
        List<LoadChange> changes = new ArrayList<>();
        for (LoadLine line : sheet.lines()) {
            tick(line, ticks)
                    .filter(LoadTick::ticked)
                    .filter(tick -> !tick.covers(line))
                    .ifPresent(tick -> changes.add(of(line, tick)));
        }
        ticks.values().stream()
                .filter(tick -> tick.loaded().signum() > 0)
                .filter(tick -> sheet.lines().stream().noneMatch(line -> isOf(tick, line)))
                .sorted(Comparator.comparing(LoadTick::line))
                .map(tick -> new LoadChange(
                        tick.line().startsWith(LoadRules.DRY_SALT_KEY)
                                        || DRUMS.matcher(tick.line()).matches()
                                ? Kind.TAKE_OUT
                                : Kind.ENOUGH,
                        Optional.empty(),
                        tick.line(),
                        tick.loaded()))
                .forEach(changes::add);
        return changes;
    }

    private static LoadChange of(LoadLine line, LoadTick tick) {
        BigDecimal more = line.amount().subtract(tick.loaded());
        Kind less = switch (line.group()) {
            case SALT_WATER, RO_DI_WATER, DRY_SALT -> Kind.TAKE_OUT;
            case EMPTY_DRUMS,
                    FILLED_ON_THE_WAY,
                    WASTE_CONTAINERS,
                    SOCKS,
                    MEDIA,
                    DOSES,
                    TEST_KITS,
                    INSTRUMENTS,
                    SINGLE_WORK,
                    TOOLS -> Kind.ENOUGH;
        };
        return new LoadChange(more.signum() > 0 ? Kind.ADD : less, Optional.of(line), line.key(), more.abs());
    }

    /** The last word on a line. */
    static Optional<LoadTick> tick(LoadLine line, Map<String, LoadTick> ticks) {
        return Optional.ofNullable(ticks.get(line.key()))
                .or(() -> Optional.ofNullable(ticks.get(whateverIsInIt(line.key()))));
    }

    private static boolean isOf(LoadTick tick, LoadLine line) {
        return tick.line().equals(line.key()) || tick.line().equals(whateverIsInIt(line.key()));
    }

    /** A drum that is not full was ticked so before its content was part of the key. */
    private static String whateverIsInIt(String key) {
        int at = key.lastIndexOf(NOT_FULL + ":");
        return at < 0 ? key : key.substring(0, at + NOT_FULL.length());
    }

    /** Of drums that are not needed any more, what is in them; empty for anything else. */
    Optional<Drums> drums() {
        Matcher read = DRUMS.matcher(key);
        return read.matches()
                ? Optional.of(new Drums(
                        Optional.ofNullable(read.group(1)).map(Double::valueOf),
                        read.group(2) != null,
                        Optional.ofNullable(read.group(3))
                                .or(() -> Optional.ofNullable(read.group(5)))
                                .map(Double::valueOf),
                        Optional.ofNullable(read.group(4))))
                : Optional.empty();
    }
}
