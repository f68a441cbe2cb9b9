package app.tankround.seed;

import app.tankround.chemistry.ReverseOsmosis;
import app.tankround.instruments.InstrumentId;
import app.tankround.persistence.Uuids;
import app.tankround.purification.Arrangement;
import app.tankround.purification.Place;
import app.tankround.purification.Plants;
import app.tankround.purification.StageDetails;
import app.tankround.purification.StageId;
import app.tankround.purification.StageKind;
import app.tankround.readings.Answer;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.stock.NewVatLevel;
import app.tankround.stock.VatRole;
import app.tankround.stock.WaterVats;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Temperature;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;

/**
 * The plant at the depot that makes purified water: what it consists of, and what is read off it each Monday. Its resin
 * lasts well, its membrane is sound, and a chlorine test is due.
 */
@Component
class WaterPlant {

    static final String CODE = "W-001";

    private static final String TANK = "W-002";
    private static final String VAT = "W-003";
    private static final List<String> SMALL_VATS = List.of("W-004", "W-006");
    private static final String STORED = "640";

    static final List<String> POINTS = List.of("Before RO", "After carbon", "After RO", "After resin");

    private static final List<Place> PLACES =
            List.of(Place.FEED, Place.AFTER_CARBON, Place.AFTER_MEMBRANE, Place.AFTER_RESIN);
    private static final List<String> MOST_SOLIDS = List.of("500", "500", "20", "0");
    private static final List<String> CONTAINERS = List.of("W-002", "W-004", "W-005", "W-006");

    private static final int RESIN_LASTS_MONTHS = 3;
    private static final int FILTERS_LAST_MONTHS = 5;
    private static final double RESIN_EQUIVALENTS = 6;
    private static final long LITRES_A_WEEK = 2100;
    private static final double LITRES_BETWEEN_TESTS = 5000;
    /** Mondays from one test for chlorine to the next. */
    private static final int WEEKS_BETWEEN_TESTS = 4;

    private static final int WEEKS_SINCE_TEST = 3;
    private static final double NEW_FLOW = 620;
    private static final double LOST_A_WEEK = 0.0008;
    private static final int WARMEST_DAY = 205;
    private static final double DAYS_OF_YEAR = 365.25;

    private final Plants plants;
    private final WaterSystems systems;
    private final WaterVats vats;
    private final DemoClock clock;

    WaterPlant(Plants plants, WaterSystems systems, WaterVats vats, DemoClock clock) {
        this.plants = plants;
        this.systems = systems;
        this.vats = vats;
        this.clock = clock;
    }

    /** Describes the plant in the first month, and puts new filters and resin in when their time has come. */
    void tend(int month, DemoDays days) {
        WaterSystemView plant = systems.findByCode(CODE).orElseThrow();
        LocalDate on = days.month(month);
        int left = DemoDays.MONTHS - 1 - month;
        if (month == 0) {
            arrange(plant);
            plants.addStage(id(), stage(plant.id(), StageKind.MEMBRANE, "Thin film, three in a row", on));
        }
        if (month == 0 || left % FILTERS_LAST_MONTHS == FILTERS_LAST_MONTHS - 1) {
            plants.addStage(id(), stage(plant.id(), StageKind.PREFILTER, "Sediment, 5 micrometres", on));
            plants.addStage(id(), stage(plant.id(), StageKind.CARBON, "Catalytic carbon block", on));
        }
        if (month == 0 || left % RESIN_LASTS_MONTHS == RESIN_LASTS_MONTHS - 1) {
            plants.addStage(id(), stage(plant.id(), StageKind.RESIN, "Mixed bed, 12 L", on));
        }
    }

    /** Lets the tank and the vat take part in the water plan, and looks how much is in them. */
    void lookIntoVats() {
        look(TANK, VatRole.PURIFIED, STORED);
        look(VAT, VatRole.MIXING, "0");
        SMALL_VATS.forEach(vat -> look(vat, VatRole.MIXING, "0"));
    }

    private void look(String code, VatRole role, String litres) {
        WaterSystemId vat = systems.findByCode(code).orElseThrow().id();
        vats.assign(vat, 0, Optional.of(role));
        vats.read(new NewVatLevel(Uuids.next(clock.instant()), vat, new BigDecimal(litres), Optional.empty()));
    }

    private void arrange(WaterSystemView plant) {
        Map<SamplePointId, Place> places = new LinkedHashMap<>();
        Map<SamplePointId, List<TargetRange>> targets = new LinkedHashMap<>();
        for (SamplePointView point : systems.samplePoints(plant.id())) {
            places.put(point.id(), PLACES.get(point.position()));
            TargetRange solids = atMost(Quantity.DISSOLVED_SOLIDS, MOST_SOLIDS.get(point.position()));
            boolean afterCarbon = PLACES.get(point.position()) == Place.AFTER_CARBON;
            targets.put(
                    point.id(),
                    afterCarbon
                            ? List.of(solids, atMost(Quantity.FREE_CHLORINE, "0"), atMost(Quantity.TOTAL_CHLORINE, "0"))
                            : List.of(solids));
        }
        Set<WaterSystemId> containers = CONTAINERS.stream()
                .map(code -> systems.findByCode(code).orElseThrow().id())
                .collect(Collectors.toSet());
        plants.arrange(plant.id(), plant.version(), new Arrangement(places, containers), targets);
    }

    private static TargetRange atMost(Quantity quantity, String most) {
        return TargetRange.of(quantity, null, most, MeasurementUnit.MILLIGRAMS_PER_LITRE);
    }

    private static StageDetails stage(WaterSystemId plant, StageKind kind, String name, LocalDate on) {
        return new StageDetails(
                plant, kind, name, on, null, null, null, null, LITRES_BETWEEN_TESTS, null, RESIN_EQUIVALENTS, null);
    }

    /**
     * What is read off on a Monday: solids and meter always, the rest once in four weeks.
     *
     * @param instruments their ids by code
     */
    List<NewReading> readOff(Measuring.Sampling sampling, DemoDays days, Map<String, InstrumentId> instruments) {
        List<SamplePointId> points = systems.samplePoints(sampling.id()).stream()
                .map(SamplePointView::id)
                .toList();
        SplittableRandom random = Waters.random(CODE + sampling.day());
        long week = ChronoUnit.WEEKS.between(days.start(), sampling.day());
        Optional<InstrumentId> pen = Optional.ofNullable(
                instruments.get(Tool.chosen(sampling.system(), Quantity.DISSOLVED_SOLIDS, sampling.van())
                        .code()));
        List<NewReading> read = new ArrayList<>();
        int[] solids = {270 + random.nextInt(30), 8 + random.nextInt(3), 0};
        List<SamplePointId> at = List.of(points.get(0), points.get(2), points.get(3));
        for (int i = 0; i < solids.length; i++) {
            NewReading reading = reading(
                            sampling,
                            Quantity.DISSOLVED_SOLIDS,
                            BigDecimal.valueOf(solids[i]),
                            MeasurementUnit.MILLIGRAMS_PER_LITRE)
                    .withSamplePoint(at.get(i));
            read.add(pen.map(reading::withInstrument).orElse(reading));
        }
        read.add(reading(
                sampling,
                Quantity.VOLUME_MADE,
                BigDecimal.valueOf(4000 + LITRES_A_WEEK * week + random.nextInt(200)),
                MeasurementUnit.LITRE));
        long weeksLeft = ChronoUnit.WEEKS.between(sampling.day(), days.today());
        if (weeksLeft % WEEKS_BETWEEN_TESTS == WEEKS_SINCE_TEST) {
            read.add(reading(sampling, Quantity.PRESSURE, bar(4.0, random), MeasurementUnit.BAR)
                    .withSamplePoint(points.get(0)));
            read.add(reading(sampling, Quantity.PRESSURE, bar(3.5, random), MeasurementUnit.BAR)
                    .withSamplePoint(points.get(1)));
            read.add(flow(sampling, week, random));
            read.add(none(sampling, Quantity.FREE_CHLORINE, points.get(1)));
            read.add(none(sampling, Quantity.TOTAL_CHLORINE, points.get(1)));
        }
        return read;
    }

    /** A little less each week, and less in cold water. */
    private static NewReading flow(Measuring.Sampling sampling, long week, SplittableRandom random) {
        double season = Math.cos(2 * Math.PI * (sampling.day().getDayOfYear() - WARMEST_DAY) / DAYS_OF_YEAR);
        BigDecimal celsius = BigDecimal.valueOf(13 + 5 * season).setScale(1, RoundingMode.HALF_EVEN);
        double at25 = NEW_FLOW * (1 - LOST_A_WEEK * week) + random.nextInt(8);
        double litres = ReverseOsmosis.flowAt(
                ReverseOsmosis.temperatureCorrection(new Temperature(celsius.doubleValue())), at25);
        return reading(
                        sampling,
                        Quantity.PERMEATE_FLOW,
                        BigDecimal.valueOf(litres).setScale(0, RoundingMode.HALF_EVEN),
                        MeasurementUnit.LITRES_PER_DAY)
                .withSampleTemperature(celsius);
    }

    private static BigDecimal bar(double usual, SplittableRandom random) {
        return BigDecimal.valueOf(usual + 0.1 * random.nextInt(2)).setScale(1, RoundingMode.HALF_EVEN);
    }

    private static NewReading none(Measuring.Sampling sampling, Quantity quantity, SamplePointId point) {
        return reading(sampling, quantity, new BigDecimal("0.02"), MeasurementUnit.MILLIGRAMS_PER_LITRE)
                .withSamplePoint(point)
                .withAnswer(Answer.BELOW_DETECTION)
                .withKitLot("CL-2291");
    }

    private static NewReading reading(
            Measuring.Sampling sampling, Quantity quantity, BigDecimal value, MeasurementUnit unit) {
        return NewReading.of(
                ReadingId.of(Uuids.next(sampling.at())),
                sampling.id(),
                quantity,
                value,
                unit,
                sampling.at(),
                sampling.person());
    }

    private StageId id() {
        return StageId.of(Uuids.next(clock.instant()));
    }
}
