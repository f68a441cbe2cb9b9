package app.tankround.loads;

import app.tankround.units.Mass;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Lines that are shown as one: containers of one size that are filled with the same water to the same mark, for all clean systems
 * or for the same one, and get into the van the same way. Each stays a line of its own, with its own tick.
 *
 * @param lines one or more, in the order of the sheet; several only where each is one container
 */
record LoadRow(List<LoadLine> lines) {

    LoadRow {
        if (lines.isEmpty()) {
            throw new IllegalArgumentException("no lines");
        }
        lines = List.copyOf(lines);
    }

    /** In the order of their first lines. */
    static List<LoadRow> of(List<LoadLine> lines) {
        Map<Object, List<LoadLine>> alike = new LinkedHashMap<>();
        lines.forEach(line ->
                alike.computeIfAbsent(likeness(line), none -> new ArrayList<>()).add(line));
        return alike.values().stream().map(LoadRow::new).toList();
    }

    private record Likeness(
            LoadGroup group,
            String purpose,
            Optional<String> apartFor,
            LoadText item,
            double litres,
            double level,
            boolean pumped,
            boolean overLimit,
            boolean fromPool) {}

    private static Object likeness(LoadLine line) {
        return line.container()
                .<Object>map(container -> new Likeness(
                        line.group(),
                        purpose(line, container),
                        line.apartFor(),
                        line.item(),
                        container.size().litres(),
                        container.level().litres(),
                        container.pumped(),
                        container.overLimit(),
                        container.fromPool()))
                .orElseGet(line::key);
    }

    /** What stands in the key beside the container: the water that is in it, or what it goes along empty for. */
    private static String purpose(LoadLine line, LoadedContainer container) {
        int at = line.key().indexOf(":" + container.number() + ":");
        return line.group().isWater()
                ? line.key().substring(0, at)
                : line.key().substring(at + container.number().length() + 2);
    }

    LoadLine first() {
        return lines.getFirst();
    }

    boolean isSeveral() {
        return lines.size() > 1;
    }

    /** Whether each of its lines is for the same stops. */
    boolean isServedAlike() {
        return lines.stream().map(LoadRow::positions).distinct().count() == 1;
    }

    private static List<Integer> positions(LoadLine line) {
        return line.stops().stream().map(StopShare::position).toList();
    }

    BigDecimal amount() {
        return lines.stream().map(LoadLine::amount).reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    Mass mass() {
        return lines.stream().map(LoadLine::mass).reduce(Mass.ofKilograms(0), Mass::plus);
    }

    /** The mass of one, where several of the same mass are lifted singly. */
    Optional<Mass> each() {
        return isSeveral()
                ? Optional.of(first().mass())
                        .filter(mass ->
                                lines.stream().allMatch(line -> line.mass().equals(mass)))
                : first().each().filter(mass -> amount().compareTo(BigDecimal.ONE) > 0);
    }
}
