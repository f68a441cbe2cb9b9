package app.tankround.purification.web;

import app.tankround.purification.Arrangement;
import app.tankround.purification.Place;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.TargetView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FormReader;
import app.tankround.web.NumberText;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** Where the sample points of a plant are, how much may be found at each, and which systems are filled from it. */
record PointsForm(
        int version, @Nullable List<Line> points, @Nullable List<String> containers)
        implements VersionedForm<PointsForm> {

    private static final BigDecimal MOST_SOLIDS = BigDecimal.valueOf(5000);
    private static final BigDecimal MOST_CHLORINE = BigDecimal.valueOf(20);

    /**
     * A sample point.
     *
     * @param solids most dissolved solids, in mg/L
     * @param chlorine most free and most total chlorine, in mg/L
     */
    record Line(
            String id,
            @Nullable String place,
            @Nullable String solids,
            @Nullable String chlorine) {}

    static PointsForm of(
            WaterSystemView plant,
            List<SamplePointView> points,
            Arrangement arrangement,
            Map<SamplePointId, Map<Quantity, TargetView>> targets,
            Locale locale) {
        return new PointsForm(
                plant.version(),
                points.stream()
                        .map(point -> {
                            Map<Quantity, TargetView> own = targets.getOrDefault(point.id(), Map.of());
                            Place place = arrangement.places().get(point.id());
                            return new Line(
                                    point.id().toString(),
                                    place == null ? "" : place.name(),
                                    high(own.get(Quantity.DISSOLVED_SOLIDS), locale),
                                    high(own.get(Quantity.TOTAL_CHLORINE), locale));
                        })
                        .toList(),
                arrangement.containers().stream()
                        .map(WaterSystemId::toString)
                        .sorted()
                        .toList());
    }

    private static @Nullable String high(@Nullable TargetView target, Locale locale) {
        return target == null
                ? null
                : target.high().map(limit -> NumberText.plain(limit, locale)).orElse(null);
    }

    @Override
    public PointsForm withVersion(int newest) {
        return new PointsForm(newest, points, containers);
    }

    /** What was read of it. */
    record Command(Arrangement arrangement, Map<SamplePointId, List<TargetRange>> targets) {}

    /** @param present targets now; those that this form does not show are kept */
    Optional<Command> toCommand(FormReader reader, Map<SamplePointId, Map<Quantity, TargetView>> present) {
        Map<SamplePointId, Place> places = new HashMap<>();
        Map<SamplePointId, List<TargetRange>> targets = new HashMap<>();
        List<Line> sent = points == null ? List.of() : points;
        for (int i = 0; i < sent.size(); i++) {
            String path = "points[" + i + "].";
            Line line = sent.get(i);
            var point = SamplePointId.of(FormReader.madeWith("sample-point", line.id()));
            if (line.place() != null && !line.place().isEmpty()) {
                reader.choice(path + "place", line.place(), Place.class).ifPresent(place -> places.put(point, place));
            }
            List<TargetRange> ranges = new ArrayList<>(present.getOrDefault(point, Map.of()).values().stream()
                    .filter(kept -> !shows(kept.quantity()))
                    .map(kept -> new TargetRange(
                            kept.quantity(),
                            kept.low().orElse(null),
                            kept.high().orElse(null),
                            kept.unit(),
                            kept.gravityReference().orElse(null)))
                    .toList());
            reader.number(path + "solids", line.solids(), BigDecimal.ZERO, MOST_SOLIDS)
                    .ifPresent(most -> ranges.add(atMost(Quantity.DISSOLVED_SOLIDS, most)));
            reader.number(path + "chlorine", line.chlorine(), BigDecimal.ZERO, MOST_CHLORINE)
                    .ifPresent(most -> {
                        ranges.add(atMost(Quantity.FREE_CHLORINE, most));
                        ranges.add(atMost(Quantity.TOTAL_CHLORINE, most));
                    });
            targets.put(point, ranges);
        }
        Set<WaterSystemId> filled = new HashSet<>();
        for (String container : containers == null ? List.<String>of() : containers) {
            reader.id("containers", container).ifPresent(id -> filled.add(WaterSystemId.of(id)));
        }
        return reader.accepted()
                ? Optional.of(new Command(new Arrangement(places, filled), targets))
                : Optional.empty();
    }

    private static boolean shows(Quantity quantity) {
        return switch (quantity) {
            case DISSOLVED_SOLIDS, FREE_CHLORINE, TOTAL_CHLORINE -> true;
            default -> false;
        };
    }

    private static TargetRange atMost(Quantity quantity, BigDecimal most) {
        return new TargetRange(quantity, null, most, MeasurementUnit.MILLIGRAMS_PER_LITRE, null);
    }

    /** Whether a system is ticked. */
    public boolean fills(UUID system) {
        return containers != null && containers.contains(system.toString());
    }
}
