package app.tankround.visits;

import app.tankround.chemistry.SalinityScale;
import app.tankround.instruments.SalinityScales;
import app.tankround.stock.WaterBatchId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.UnitConversions;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;

/** What water was changed lately, as a reading that comes after it is held against. */
@Component
public class ChangesOfWater {

    /**
     * A change of water.
     *
     * @param share of the water that was replaced, 0 to 1
     * @param salinity practical salinity of the new water, where it was measured
     * @param celsius its temperature, likewise
     */
    public record Changed(UUID visit, Instant at, double share, Optional<Double> salinity, Optional<Double> celsius) {}

    /**
     * Water out of a batch.
     *
     * @param visit at which it went into a system
     * @param field of that visit which says so
     * @param litres above 0
     * @param at when
     */
    public record Drawn(
            WaterBatchId batch, UUID visit, String field, WaterSystemId system, double litres, Instant at) {}

    private final VisitRows rows;

    ChangesOfWater(VisitRows rows) {
        this.rows = rows;
    }

    /** Those of a system since then, oldest first. */
    public List<Changed> of(WaterSystemView system, Instant from) {
        return rows.ofSystem(system.id(), List.of("visit.water-change"), from).reversed().stream()
                .map(entry -> changed(entry, system.netVolume().litres()))
                .toList();
    }

    /** What went into systems out of these batches of water, by the changes that count. */
    public List<Drawn> from(Collection<WaterBatchId> batches) {
        return rows.drawnFrom(batches);
    }

    private static Changed changed(VisitEntry entry, double held) {
        JsonNode facts = entry.facts();
        double out = number(facts, "out").orElse(0.0);
        double in = number(facts, "in").orElse(out);
        double kept = Math.max(0, held - out);
        return new Changed(
                entry.visitId().value(),
                entry.at(),
                in <= 0 ? 0 : in / (kept + in),
                number(facts, "salinity").flatMap(value -> practical(value, facts)),
                number(facts, "temperature")
                        .flatMap(value -> unit(facts, "temperatureUnit")
                                .map(unit -> UnitConversions.convert(value, unit, MeasurementUnit.DEGREE_CELSIUS))));
    }

    private static Optional<Double> practical(double value, JsonNode facts) {
        Optional<String> reference =
                Optional.of(facts.path("gravityReference").asString("")).filter(text -> !text.isEmpty());
        try {
            return unit(facts, "salinityUnit").map(unit -> {
                SalinityScale scale = SalinityScales.of(unit, reference);
                return scale.toSalinity(value).value();
            });
        } catch (OutOfRangeException beyond) {
            return Optional.empty();
        }
    }

    private static Optional<MeasurementUnit> unit(JsonNode facts, String field) {
        return MeasurementUnit.ofCode(facts.path(field).asString(""));
    }

    private static Optional<Double> number(JsonNode facts, String field) {
        return Optional.of(facts.path(field).asString(""))
                .filter(text -> !text.isEmpty())
                .map(Double::valueOf);
    }
}
