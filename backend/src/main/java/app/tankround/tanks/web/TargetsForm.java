package app.tankround.tanks.web;

import app.tankround.tanks.TargetRange;
import app.tankround.tanks.TargetView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitSystem;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormDifference;
import app.tankround.web.FormReader;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The targets of a system, or the usual ones of a kind, as typed: a line for every quantity, blank where there is no target. */
record TargetsForm(int version, @Nullable List<Line> lines) implements VersionedForm<TargetsForm> {

    record Line(
            String quantity,
            @Nullable String low,
            @Nullable String high,
            @Nullable String unit,
            @Nullable String gravityReference) {

        boolean isBlank() {
            return blank(low) && blank(high);
        }

        private String range() {
            return isBlank() ? "" : text(low) + " – " + text(high) + " " + symbol();
        }

        private String symbol() {
            String code = text(unit);
            return MeasurementUnit.ofCode(code).map(MeasurementUnit::symbol).orElse(code);
        }

        private static String text(@Nullable String limit) {
            return limit == null ? "" : limit;
        }

        private static boolean blank(@Nullable String text) {
            return text == null || text.isBlank();
        }
    }

    static TargetsForm of(int version, List<TargetView> targets, Figures figures, String gravityReference) {
        Map<Quantity, TargetView> byQuantity =
                targets.stream().collect(Collectors.toMap(TargetView::quantity, Function.identity()));
        List<Line> lines = Quantity.ofWater().stream()
                .map(quantity -> {
                    TargetView target = byQuantity.get(quantity);
                    if (target == null) {
                        return new Line(
                                quantity.name(),
                                null,
                                null,
                                usual(quantity, figures).code(),
                                quantity == Quantity.SALINITY ? gravityReference : null);
                    }
                    return new Line(
                            quantity.name(),
                            figures.low(target),
                            figures.high(target),
                            figures.unit(target).code(),
                            target.gravityReference().orElse(quantity == Quantity.SALINITY ? gravityReference : null));
                })
                .toList();
        return new TargetsForm(version, lines);
    }

    private static MeasurementUnit usual(Quantity quantity, Figures figures) {
        boolean fahrenheit = quantity == Quantity.TEMPERATURE && figures.units() == UnitSystem.US_CUSTOMARY;
        return fahrenheit ? MeasurementUnit.DEGREE_FAHRENHEIT : quantity.units().getFirst();
    }

    @Override
    public TargetsForm withVersion(int newest) {
        return new TargetsForm(newest, lines);
    }

    /** The same refusal at the line of the quantity that it names, where it names one. */
    FieldRefusal atLine(FieldRefusal refusal) {
        List<Line> sent = sent();
        for (int i = 0; i < sent.size(); i++) {
            if (sent.get(i).quantity().equals(refusal.field())) {
                return new FieldRefusal(
                        "lines[" + i + "].low", refusal.code(), refusal.args().toArray());
            }
        }
        return refusal;
    }

    /** By quantity, each with its range as one text. */
    @Override
    public List<FormDifference> differencesFrom(TargetsForm stored) {
        Map<String, Line> sent = byQuantity();
        return stored.byQuantity().values().stream()
                .map(line -> new FormDifference(
                        line.quantity(),
                        line.range(),
                        sent.getOrDefault(line.quantity(), line).range()))
                .filter(difference -> !difference.theirs().equals(difference.yours()))
                .toList();
    }

    private Map<String, Line> byQuantity() {
        Map<String, Line> byQuantity = new LinkedHashMap<>();
        sent().forEach(line -> byQuantity.put(line.quantity(), line));
        return byQuantity;
    }

    private List<Line> sent() {
        return lines == null ? List.of() : lines;
    }

    Optional<List<TargetRange>> toCommand(FormReader reader) {
        List<TargetRange> targets = new ArrayList<>();
        List<Line> sent = sent();
        for (int i = 0; i < sent.size(); i++) {
            if (!sent.get(i).isBlank()) {
                read(reader, "lines[" + i + "].", sent.get(i)).ifPresent(targets::add);
            }
        }
        return reader.accepted() ? Optional.of(List.copyOf(targets)) : Optional.empty();
    }

    private static Optional<TargetRange> read(FormReader reader, String path, Line line) {
        Optional<Quantity> quantity = reader.choice(path + "quantity", line.quantity(), Quantity.class);
        Optional<MeasurementUnit> unit = MeasurementUnit.ofCode(line.unit() == null ? "" : line.unit());
        if (unit.isEmpty()) {
            reader.refuse(path + "unit", "web.choice-needed", line.unit() == null ? "" : line.unit());
        }
        Optional<BigDecimal> low = reader.number(path + "low", line.low());
        Optional<BigDecimal> high = reader.number(path + "high", line.high());
        boolean lowRefused = low.isEmpty() && !Line.blank(line.low());
        boolean highRefused = high.isEmpty() && !Line.blank(line.high());
        if (quantity.isEmpty() || unit.isEmpty() || lowRefused || highRefused) {
            return Optional.empty();
        }
        String reference = unit.get() == MeasurementUnit.SPECIFIC_GRAVITY ? line.gravityReference() : null;
        try {
            return Optional.of(
                    new TargetRange(quantity.get(), low.orElse(null), high.orElse(null), unit.get(), reference));
        } catch (FieldRefusal refusal) {
            reader.refuse(path + refusal.field(), refusal.code(), refusal.args().toArray());
            return Optional.empty();
        }
    }
}
