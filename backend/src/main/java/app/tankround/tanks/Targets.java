package app.tankround.tanks;

import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Targets of one system or kind, in the order of {@link Quantity}. */
record Targets(List<TargetRange> targets) {

    /** @throws FieldRefusal if a quantity comes twice */
    static Targets of(Iterable<TargetRange> ranges) {
        Set<Quantity> seen = new HashSet<>();
        List<TargetRange> sorted = new ArrayList<>();
        for (TargetRange range : ranges) {
            if (!seen.add(range.quantity())) {
                throw new FieldRefusal("quantity", "tanks.target-twice", range.quantity());
            }
            sorted.add(range);
        }
        sorted.sort(Comparator.comparing(TargetRange::quantity));
        return new Targets(List.copyOf(sorted));
    }

    List<String> texts() {
        return targets.stream().map(TargetRange::toString).toList();
    }

    /** Both lists, as detail for the change log. */
    Map<String, Object> changedTo(Targets after) {
        return Map.of("before", texts(), "after", after.texts());
    }
}
