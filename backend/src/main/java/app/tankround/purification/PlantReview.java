package app.tankround.purification;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.MembraneHealth;
import app.tankround.chemistry.PretreatmentState;
import app.tankround.chemistry.PretreatmentState.ChlorineTest;
import app.tankround.chemistry.PurifiedWaterCode;
import app.tankround.chemistry.PurifiedWaterNote;
import app.tankround.chemistry.ResinCharge;
import app.tankround.chemistry.ReverseOsmosis;
import app.tankround.chemistry.SolidsCreep;
import app.tankround.purification.PlantState.ContainerState;
import app.tankround.purification.PlantState.Creep;
import app.tankround.purification.PlantState.Made;
import app.tankround.purification.PlantState.PointState;
import app.tankround.purification.PlantState.ResinState;
import app.tankround.purification.PlantState.StageState;
import app.tankround.readings.Answer;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.units.Temperature;
import app.tankround.units.UnitConversions;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** How the plants for purified water do. */
@Service
@Transactional(readOnly = true)
public class PlantReview {

    /** What was measured longer ago says nothing of a creep of today; as in the health review. */
    private static final Duration CREEP_WINDOW = Duration.ofDays(180);

    private static final int CREEP_MOST_POINTS = 12;

    private static final double HOURS_OF_DAY = 24;

    /** A fortnight is enough to order resin; common practice, no source. */
    private static final double RESIN_WARNING_DAYS = 14;

    private static final Comparator<PointState> ALONG_THE_WATER = Comparator.comparing(
                    (PointState state) -> state.place().map(Enum::ordinal).orElse(Place.values().length))
            .thenComparingInt(state -> state.point().position());

    private final Plants plants;
    private final WaterSystems systems;
    private final ReadingService readings;
    private final BusinessProfile business;
    private final Clock clock;

    PlantReview(Plants plants, WaterSystems systems, ReadingService readings, BusinessProfile business, Clock clock) {
        this.plants = plants;
        this.systems = systems;
        this.readings = readings;
        this.business = business;
        this.clock = clock;
    }

    /** Every plant that has a stage in use. */
    public List<PlantState> all() {
        return plants.all().stream().map(this::of).toList();
    }

    public PlantState of(WaterSystemId plant) {
        return new Work(systems.require(plant)).state();
    }

    /** Litres that a plant's water meter showed last before an instant; 0 if it never was read. */
    public double meterBefore(WaterSystemId plant, Instant before) {
        return readings.series(plant, Quantity.VOLUME_MADE, Instant.EPOCH, before).reversed().stream()
                .flatMap(reading -> value(reading).stream())
                .findFirst()
                .orElse(0.0);
    }

    /**
     * What a plant gives in an hour; empty where it has no membrane in use, or neither was its flow measured nor did anybody
     * say what it is rated.
     */
    public Optional<PlantProduction> production(WaterSystemId plant, PlantProduction.Stated stated) {
        LocalDate today = LocalDate.ofInstant(clock.instant(), business.zone());
        return plants.stages(plant).stream()
                .map(StageView::details)
                .filter(details -> details.kind() == StageKind.MEMBRANE && details.removedOn() == null)
                .findFirst()
                .flatMap(membrane -> PlantProduction.of(
                        lastFlow(plant, membrane.installedOn()), membrane.installedOn(), stated, today));
    }

    private Optional<PlantProduction.MeasuredFlow> lastFlow(WaterSystemId plant, LocalDate since) {
        ZoneId zone = business.zone();
        return readings
                .series(
                        plant,
                        Quantity.PERMEATE_FLOW,
                        since.atStartOfDay(zone).toInstant(),
                        clock.instant().plusSeconds(1))
                .reversed()
                .stream()
                .flatMap(reading -> flow(reading, OptionalDouble.empty())
                        .map(flow -> new PlantProduction.MeasuredFlow(
                                reading.takenAt(),
                                LocalDate.ofInstant(reading.takenAt(), zone),
                                flow.at25() / HOURS_OF_DAY,
                                flow.temperature().celsius()))
                        .stream())
                .findFirst();
    }

    /** A flow without its temperature cannot be compared. */
    private static Optional<MembraneHealth.Flow> flow(ReadingView reading, OptionalDouble pressure) {
        Optional<Temperature> temperature = reading.sampleTemperature()
                .map(celsius -> new Temperature(celsius.doubleValue()))
                .filter(water -> water.celsius() >= ReverseOsmosis.LOWEST_CELSIUS
                        && water.celsius() <= ReverseOsmosis.HIGHEST_CELSIUS);
        return value(reading)
                .filter(litres -> litres > 0)
                .flatMap(litres -> temperature.map(water -> new MembraneHealth.Flow(litres, water, pressure)));
    }

    /** A value in mg/L, L, L/d or kPa; nothing found is none. */
    private static Optional<Double> value(ReadingView reading) {
        if (reading.answer() == Answer.NOT_MEASURED || reading.assessment().doubtful()) {
            return Optional.empty();
        }
        if (reading.answer() == Answer.BELOW_DETECTION) {
            return Optional.of(0.0);
        }
        return reading.assessment()
                .correctedValue()
                .or(() -> reading.value().map(Number::doubleValue))
                .map(value -> UnitConversions.convert(
                        Math.max(0, value),
                        reading.unit(),
                        reading.quantity().units().getFirst()));
    }

    /** The review of one plant. */
    private final class Work {

        private final WaterSystemView plant;
        private final Instant now = clock.instant();
        private final ZoneId zone = business.zone();
        private final LocalDate today = LocalDate.ofInstant(now, zone);
        private final Arrangement arrangement;
        private final List<SamplePointView> samplePoints;
        private final List<StageView> inUse;
        private final List<ReadingView> solids;
        private final WaterMeter meter;

        Work(WaterSystemView plant) {
            this.plant = plant;
            arrangement = plants.arrangement(plant.id());
            samplePoints = systems.samplePoints(plant.id());
            inUse = plants.stages(plant.id()).stream()
                    .filter(stage -> stage.details().removedOn() == null)
                    .toList();
            solids = all(plant.id(), Quantity.DISSOLVED_SOLIDS);
            meter = new WaterMeter(all(plant.id(), Quantity.VOLUME_MADE).stream()
                    .flatMap(reading ->
                            value(reading).stream().map(litres -> new WaterMeter.Shown(reading.takenAt(), litres)))
                    .toList());
        }

        private List<ReadingView> all(WaterSystemId system, Quantity quantity) {
            return readings.series(system, quantity, Instant.EPOCH, now.plusSeconds(1));
        }

        PlantState state() {
            return new PlantState(
                    plant.id(),
                    samplePoints.stream()
                            .map(point -> new PointState(
                                    point,
                                    Optional.ofNullable(arrangement.places().get(point.id())),
                                    last(solids, point.id())))
                            .sorted(ALONG_THE_WATER)
                            .toList(),
                    containers(),
                    inUse.stream().map(this::stage).toList(),
                    new Made(meter.last(), meter.perDay()));
        }

        private static Optional<ReadingView> last(List<ReadingView> series, SamplePointId point) {
            return series.reversed().stream()
                    .filter(reading -> reading.answer() != Answer.NOT_MEASURED)
                    .filter(reading -> reading.samplePointId().equals(Optional.of(point)))
                    .findFirst();
        }

        /** Where a place has several points, all of them. */
        private List<ReadingView> at(Place place, List<ReadingView> series) {
            return series.stream()
                    .filter(reading -> reading.samplePointId()
                            .filter(point -> arrangement.places().get(point) == place)
                            .isPresent())
                    .toList();
        }

        private static OptionalDouble lastValue(List<ReadingView> series) {
            return series.reversed().stream()
                    .flatMap(reading -> value(reading).stream())
                    .mapToDouble(Double::doubleValue)
                    .findFirst();
        }

        // Stages

        private StageState stage(StageView stage) {
            StageDetails details = stage.details();
            long months = Math.max(0, ChronoUnit.MONTHS.between(details.installedOn(), today));
            return switch (details.kind()) {
                case PREFILTER -> {
                    OptionalDouble drop = drop(since(details));
                    yield new StageState(
                            stage,
                            months,
                            Optional.empty(),
                            Optional.empty(),
                            drop,
                            Optional.empty(),
                            PretreatmentState.prefilter(
                                    months,
                                    Objects.requireNonNullElse(
                                            details.monthsAllowed(), PretreatmentState.USUAL_PREFILTER_MONTHS),
                                    drop,
                                    Objects.requireNonNullElse(
                                            details.dropAllowedKilopascals(), PretreatmentState.USUAL_PRESSURE_DROP)));
                }
                case CARBON -> carbon(stage, months);
                case MEMBRANE -> membrane(stage, months);
                case RESIN -> resin(stage, months);
            };
        }

        private Instant since(StageDetails details) {
            return details.installedOn().atStartOfDay(zone).toInstant();
        }

        /** Read on the same walk, before everything and after the carbon. */
        private OptionalDouble drop(Instant since) {
            List<ReadingView> pressures = readings.series(plant.id(), Quantity.PRESSURE, since, now.plusSeconds(1));
            List<ReadingView> after = at(Place.AFTER_CARBON, pressures);
            if (after.isEmpty()) {
                return OptionalDouble.empty();
            }
            Instant taken = after.getLast().takenAt();
            OptionalDouble before = lastValue(at(Place.FEED, pressures).stream()
                    .filter(reading -> reading.takenAt().equals(taken))
                    .toList());
            OptionalDouble behind = lastValue(after);
            return before.isPresent() && behind.isPresent()
                    ? OptionalDouble.of(before.getAsDouble() - behind.getAsDouble())
                    : OptionalDouble.empty();
        }

        private StageState carbon(StageView stage, long months) {
            Instant since = since(stage.details());
            List<ReadingView> free = at(
                    Place.AFTER_CARBON, readings.series(plant.id(), Quantity.FREE_CHLORINE, since, now.plusSeconds(1)));
            List<ReadingView> total = at(
                    Place.AFTER_CARBON,
                    readings.series(plant.id(), Quantity.TOTAL_CHLORINE, since, now.plusSeconds(1)));
            List<ReadingView> both = new ArrayList<>(free);
            both.addAll(total);
            Optional<ChlorineTest> test = both.stream()
                    .filter(reading -> value(reading).isPresent())
                    .map(ReadingView::takenAt)
                    .max(Comparator.naturalOrder())
                    .map(taken -> new ChlorineTest(
                            lastValue(on(free, taken)),
                            lastValue(on(total, taken)),
                            meter.madeSince(taken, now),
                            ChronoUnit.DAYS.between(taken, now)));
            return new StageState(
                    stage,
                    months,
                    Optional.empty(),
                    Optional.empty(),
                    OptionalDouble.empty(),
                    test,
                    PretreatmentState.carbon(
                            test,
                            Objects.requireNonNullElse(
                                    stage.details().litresBetweenTests(), PretreatmentState.USUAL_LITRES_BETWEEN_TESTS),
                            months,
                            Objects.requireNonNullElse(
                                    stage.details().monthsAllowed(), PretreatmentState.USUAL_CARBON_MONTHS)));
        }

        private List<ReadingView> on(List<ReadingView> series, Instant taken) {
            LocalDate day = LocalDate.ofInstant(taken, zone);
            return series.stream()
                    .filter(reading ->
                            LocalDate.ofInstant(reading.takenAt(), zone).equals(day))
                    .toList();
        }

        private StageState membrane(StageView stage, long months) {
            Instant since = since(stage.details());
            List<ReadingView> pressures =
                    at(Place.AFTER_CARBON, readings.series(plant.id(), Quantity.PRESSURE, since, now.plusSeconds(1)));
            List<MembraneHealth.Flow> flows =
                    readings.series(plant.id(), Quantity.PERMEATE_FLOW, since, now.plusSeconds(1)).stream()
                            .flatMap(reading -> flow(reading, pressures).stream())
                            .toList();
            Optional<Held> pair = heldBack(since).reversed().stream().findFirst();
            MembraneHealth health = MembraneHealth.of(
                    flows.size() < 2 ? Optional.empty() : Optional.of(flows.getFirst()),
                    flows.size() < 2 ? Optional.empty() : Optional.of(flows.getLast()),
                    pair.map(both -> OptionalDouble.of(both.feed())).orElse(OptionalDouble.empty()),
                    pair.map(both -> OptionalDouble.of(both.permeate())).orElse(OptionalDouble.empty()),
                    Objects.requireNonNullElse(
                            stage.details().lowestRejection(), MembraneHealth.USUAL_LOWEST_REJECTION));
            return new StageState(
                    stage,
                    months,
                    Optional.of(health),
                    Optional.empty(),
                    OptionalDouble.empty(),
                    Optional.empty(),
                    health.notes());
        }

        /** Dissolved solids before and after the membrane, in mg/L. */
        private record Held(Instant at, double feed, double permeate) {

            /** Share held back; nothing where the samples were exchanged. */
            double share() {
                return feed > 0 ? Math.max(0, ReverseOsmosis.rejection(feed, permeate)) : 0;
            }
        }

        /** Each content after the membrane with the newest before it of that day or earlier; tap water changes slowly. */
        private List<Held> heldBack(Instant since) {
            List<ReadingView> feeds = at(Place.FEED, solids);
            return at(Place.AFTER_MEMBRANE, solids).stream()
                    .filter(reading -> !reading.takenAt().isBefore(since))
                    .flatMap(reading -> held(reading, feeds).stream())
                    .toList();
        }

        private Optional<Held> held(ReadingView after, List<ReadingView> feeds) {
            Instant night = LocalDate.ofInstant(after.takenAt(), zone)
                    .plusDays(1)
                    .atStartOfDay(zone)
                    .toInstant();
            OptionalDouble feed = lastValue(feeds.stream()
                    .filter(reading -> reading.takenAt().isBefore(night))
                    .toList());
            return feed.isEmpty()
                    ? Optional.empty()
                    : value(after).map(permeate -> new Held(after.takenAt(), feed.getAsDouble(), permeate));
        }

        private Optional<MembraneHealth.Flow> flow(ReadingView reading, List<ReadingView> pressures) {
            return PlantReview.flow(
                    reading,
                    lastValue(pressures.stream()
                            .filter(read -> read.takenAt().equals(reading.takenAt()))
                            .toList()));
        }

        private StageState resin(StageView stage, long months) {
            List<PurifiedWaterNote> notes = new ArrayList<>();
            OptionalDouble passes = lastValue(at(Place.AFTER_RESIN, solids).stream()
                    .filter(reading -> !reading.takenAt().isBefore(since(stage.details())))
                    .toList());
            passes.ifPresent(found -> {
                if (found >= SolidsCreep.RESIN_GOING) {
                    notes.add(note(PurifiedWaterCode.RESIN_PASSES, found));
                }
            });
            Optional<ResinState> resin = charge(stage.details());
            resin.ifPresent(state -> {
                double days = state.daysLeft().orElse(Double.POSITIVE_INFINITY);
                if (state.charge().left() <= 0) {
                    notes.add(note(PurifiedWaterCode.RESIN_SPENT, state.charge().litres()));
                } else if (days <= RESIN_WARNING_DAYS) {
                    notes.add(note(
                            PurifiedWaterCode.RESIN_ENDS, state.litresLeft().orElse(0), Math.floor(days)));
                }
            });
            return new StageState(
                    stage, months, Optional.empty(), resin, OptionalDouble.empty(), Optional.empty(), notes);
        }

        private static PurifiedWaterNote note(PurifiedWaterCode code, Double... numbers) {
            return new PurifiedWaterNote(code, List.of(numbers));
        }

        /**
         * Dissolved solids that reach the resin, in mg/L.
         *
         * @param held share that the membrane was taken to hold back; empty where they were measured
         */
        private record Load(Instant at, double solids, OptionalDouble held) {}

        /**
         * As measured after the membrane; where only the water before it was measured that day, less what the membrane held
         * back last, or has to hold back at least.
         */
        private List<Load> loads() {
            List<Load> loads = new ArrayList<>();
            at(Place.AFTER_MEMBRANE, solids)
                    .forEach(reading -> value(reading)
                            .ifPresent(found -> loads.add(new Load(reading.takenAt(), found, OptionalDouble.empty()))));
            Set<LocalDate> measured = loads.stream()
                    .map(load -> LocalDate.ofInstant(load.at(), zone))
                    .collect(Collectors.toSet());
            at(Place.FEED, solids).stream()
                    .filter(reading -> !measured.contains(LocalDate.ofInstant(reading.takenAt(), zone)))
                    .forEach(reading -> value(reading).ifPresent(feed -> {
                        double held = heldAt(reading.takenAt());
                        loads.add(new Load(reading.takenAt(), feed * (1 - held), OptionalDouble.of(held)));
                    }));
            loads.sort(Comparator.comparing(Load::at));
            return loads;
        }

        private double heldAt(Instant at) {
            Optional<StageDetails> membrane = inUse.stream()
                    .map(StageView::details)
                    .filter(details -> details.kind() == StageKind.MEMBRANE)
                    .findFirst();
            return membrane.map(details -> heldBack(since(details)).reversed().stream()
                            .filter(pair -> pair.at().isBefore(at))
                            .findFirst()
                            .map(Held::share)
                            .orElseGet(() -> Objects.requireNonNullElse(
                                    details.lowestRejection(), MembraneHealth.USUAL_LOWEST_REJECTION)))
                    .orElse(0.0);
        }

        /** What went through, step by step from one load to the next. */
        private Optional<ResinState> charge(StageDetails details) {
            @Nullable Double capacity = details.capacityEquivalents();
            List<Load> loads = loads();
            Instant since = since(details);
            if (capacity == null || loads.isEmpty() || meter.last().isEmpty()) {
                return Optional.empty();
            }
            double gas = Objects.requireNonNullElse(details.carbonDioxide(), 0.0);
            List<ResinCharge.Made> made = new ArrayList<>();
            @Nullable Double shown = details.meterLitres();
            if (shown != null) {
                meter.shown().stream()
                        .filter(read -> !read.at().isBefore(since))
                        .findFirst()
                        .map(first -> Math.max(0, first.litres() - shown) - meter.madeBetween(since, first.at()))
                        .ifPresent(before -> made.add(new ResinCharge.Made(
                                Math.max(0, before), loads.getFirst().solids(), gas)));
            }
            Instant from = since;
            for (Load load : loads) {
                Instant until = load.at();
                if (until.isAfter(from)) {
                    made.add(new ResinCharge.Made(meter.madeBetween(from, until), load.solids(), gas));
                    from = until;
                }
            }
            double present = loads.getLast().solids();
            made.add(new ResinCharge.Made(meter.madeBetween(from, now), present, gas));
            ResinCharge charge = ResinCharge.of(capacity, made);
            OptionalDouble litres = charge.litresLeft(present, gas);
            OptionalDouble perDay = meter.perDay();
            OptionalDouble days = litres.isPresent() && perDay.orElse(0) > 0
                    ? OptionalDouble.of(litres.getAsDouble() / perDay.getAsDouble())
                    : OptionalDouble.empty();
            return Optional.of(
                    new ResinState(charge, litres, days, loads.getLast().held()));
        }

        // Containers

        private record Container(
                WaterSystemId systemId,
                Optional<SamplePointId> pointId,
                String name,
                Optional<LocalDate> washedOn,
                List<ReadingView> solids) {}

        private List<ContainerState> containers() {
            List<Container> found = new ArrayList<>();
            samplePoints.stream()
                    .filter(point -> arrangement.places().get(point.id()) == Place.CONTAINER)
                    .forEach(point -> found.add(new Container(
                            plant.id(),
                            Optional.of(point.id()),
                            point.name(),
                            plants.washedOn(plant.id(), point.id()),
                            solids.stream()
                                    .filter(reading -> reading.samplePointId().equals(Optional.of(point.id())))
                                    .toList())));
            plants.neighbours(plant).stream()
                    .filter(other -> arrangement.containers().contains(other.id()))
                    .forEach(other -> found.add(new Container(
                            other.id(),
                            Optional.empty(),
                            other.name(),
                            plants.washedOn(other.id(), null),
                            readings.series(
                                    other.id(),
                                    Quantity.DISSOLVED_SOLIDS,
                                    now.minus(CREEP_WINDOW),
                                    now.plusSeconds(1)))));
            List<SolidsCreep.Point> afterResin = points(at(Place.AFTER_RESIN, solids));
            return found.stream()
                    .map(container -> new ContainerState(
                            container.systemId(),
                            container.pointId(),
                            container.name(),
                            container.solids().reversed().stream()
                                    .filter(reading -> reading.answer() != Answer.NOT_MEASURED)
                                    .findFirst(),
                            container.washedOn(),
                            creep(container, afterResin, found)))
                    .toList();
        }

        private Optional<Creep> creep(Container container, List<SolidsCreep.Point> afterResin, List<Container> all) {
            List<SolidsCreep.Point> series = recent(container);
            if (!SolidsCreep.rises(series)) {
                return Optional.empty();
            }
            List<List<SolidsCreep.Point>> others = all.stream()
                    .filter(other -> !other.equals(container))
                    .map(this::recent)
                    .toList();
            double days = series.getLast().day() - series.getFirst().day();
            return Optional.of(new Creep(
                    series.getFirst().solids(),
                    series.getLast().solids(),
                    (long) Math.floor(days),
                    SolidsCreep.explain(series, afterResin, others)));
        }

        /** Since the last wash, and no more than the newest dozen. */
        private List<SolidsCreep.Point> recent(Container container) {
            Instant washed = container
                    .washedOn()
                    .map(day -> day.plusDays(1).atStartOfDay(zone).toInstant())
                    .orElse(Instant.EPOCH);
            List<SolidsCreep.Point> points = points(container.solids().stream()
                    .filter(reading -> !reading.takenAt().isBefore(now.minus(CREEP_WINDOW)))
                    .filter(reading -> !reading.takenAt().isBefore(washed))
                    .toList());
            return points.subList(Math.max(0, points.size() - CREEP_MOST_POINTS), points.size());
        }

        private List<SolidsCreep.Point> points(List<ReadingView> series) {
            return series.stream()
                    .flatMap(reading -> value(reading).stream()
                            .map(solid ->
                                    new SolidsCreep.Point(reading.takenAt().getEpochSecond() / 86_400.0, solid)))
                    .toList();
        }
    }
}
