package app.tankround.seed;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.Graduation;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.NewInstrument;
import app.tankround.instruments.SalinityScales;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * An instrument or test kit of the demo.
 *
 * @param van number of the van it rides in
 * @param standards codes of what it is checked against; none for kits
 * @param checkEveryDays how often somebody really checks it
 */
record Tool(
        String code,
        String name,
        InstrumentKind kind,
        Quantity quantity,
        MeasurementUnit unit,
        String resolution,
        String permittedError,
        int intervalDays,
        int checkEveryDays,
        int van,
        List<String> standards) {

    static final String GRAVITY_REFERENCE = "20/20";
    static final String KNOCKED = "R-07";
    static final String METER = "C-01";
    private static final String PURE_WATER = "STD-0";
    private static final String SALINITY_35 = "STD-35";
    /** Pens and probes have what they show at zero and in the range they work in, kits have neither. */
    private static final List<String> SALT = List.of(PURE_WATER, SALINITY_35);

    private static final Set<Quantity> DROPS = Set.of(Quantity.ALKALINITY, Quantity.CALCIUM, Quantity.MAGNESIUM);
    private static final int KIT_SHELF_LIFE_DAYS = 150;

    /** Everything in the register. */
    static List<Tool> all() {
        return Stream.of(
                        Stream.of(
                                tool(
                                        "R-01",
                                        "Hand refractometer",
                                        InstrumentKind.REFRACTOMETER,
                                        Quantity.SALINITY,
                                        MeasurementUnit.SPECIFIC_GRAVITY,
                                        "0.001",
                                        "0.001",
                                        14,
                                        14,
                                        1,
                                        SALT),
                                tool(
                                        "R-02",
                                        "Hand refractometer",
                                        InstrumentKind.REFRACTOMETER,
                                        Quantity.SALINITY,
                                        MeasurementUnit.SPECIFIC_GRAVITY,
                                        "0.001",
                                        "0.001",
                                        14,
                                        14,
                                        2,
                                        SALT),
                                tool(
                                        KNOCKED,
                                        "Hand refractometer, spare",
                                        InstrumentKind.REFRACTOMETER,
                                        Quantity.SALINITY,
                                        MeasurementUnit.SPECIFIC_GRAVITY,
                                        "0.001",
                                        "0.001",
                                        45,
                                        42,
                                        2,
                                        List.of(SALINITY_35)),
                                tool(
                                        "H-01",
                                        "Glass hydrometer",
                                        InstrumentKind.HYDROMETER,
                                        Quantity.SALINITY,
                                        MeasurementUnit.SPECIFIC_GRAVITY,
                                        "0.0005",
                                        "0.001",
                                        90,
                                        84,
                                        2,
                                        List.of(SALINITY_35)),
                                tool(
                                        METER,
                                        "Conductivity meter",
                                        InstrumentKind.CONDUCTIVITY_METER,
                                        Quantity.SALINITY,
                                        MeasurementUnit.PRACTICAL_SALINITY,
                                        "0.1",
                                        "0.5",
                                        30,
                                        28,
                                        1,
                                        SALT),
                                tool(
                                        "C-02",
                                        "Conductivity meter",
                                        InstrumentKind.CONDUCTIVITY_METER,
                                        Quantity.SALINITY,
                                        MeasurementUnit.MILLISIEMENS_PER_CENTIMETRE,
                                        "0.1",
                                        "0.6",
                                        30,
                                        28,
                                        2,
                                        SALT)),
                        Stream.of(1, 2).flatMap(Tool::ofVan))
                .flatMap(tools -> tools)
                .toList();
    }

    private static Stream<Tool> ofVan(int van) {
        return Stream.of(
                tool(
                        "P-0" + van,
                        "pH meter",
                        InstrumentKind.PH_METER,
                        Quantity.PH,
                        MeasurementUnit.PH_UNIT,
                        "0.01",
                        "0.1",
                        30,
                        28,
                        van,
                        List.of("STD-PH7", "STD-PH10")),
                tool(
                        "T-0" + van,
                        "Probe thermometer",
                        InstrumentKind.THERMOMETER,
                        Quantity.TEMPERATURE,
                        MeasurementUnit.DEGREE_CELSIUS,
                        "0.1",
                        "0.5",
                        365,
                        182,
                        van,
                        List.of("STD-25C")),
                tool(
                        "D-0" + van,
                        "Dissolved solids pen",
                        InstrumentKind.TDS_PEN,
                        Quantity.DISSOLVED_SOLIDS,
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        "1",
                        "1",
                        30,
                        28,
                        van,
                        List.of(PURE_WATER + "T", "STD-10")),
                tool(
                        "O-0" + van,
                        "Oxygen probe",
                        InstrumentKind.OXYGEN_PROBE,
                        Quantity.OXYGEN,
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        "0.1",
                        "0.4",
                        30,
                        28,
                        van,
                        List.of("STD-O2")),
                kit(van, "KH", Quantity.ALKALINITY, MeasurementUnit.DEGREE_CARBONATE_HARDNESS, "0.1", "0.5"),
                kit(van, "CA", Quantity.CALCIUM, MeasurementUnit.MILLIGRAMS_PER_LITRE, "5", "15"),
                kit(van, "MG", Quantity.MAGNESIUM, MeasurementUnit.MILLIGRAMS_PER_LITRE, "15", "40"),
                kit(van, "NH", Quantity.AMMONIA, MeasurementUnit.MILLIGRAMS_PER_LITRE, "0.05", "0.1"),
                kit(van, "NO2", Quantity.NITRITE, MeasurementUnit.MILLIGRAMS_PER_LITRE, "0.02", "0.05"),
                kit(van, "NO3", Quantity.NITRATE, MeasurementUnit.MILLIGRAMS_PER_LITRE, "1", "3"),
                kit(van, "PO4", Quantity.PHOSPHATE, MeasurementUnit.MILLIGRAMS_PER_LITRE, "0.01", "0.015"));
    }

    private static Tool kit(
            int van, String sign, Quantity quantity, MeasurementUnit unit, String resolution, String uncertainty) {
        return tool(
                "K%d-%s".formatted(van, sign),
                "Test kit " + sign,
                DROPS.contains(quantity) ? InstrumentKind.TITRATION_KIT : InstrumentKind.COLOUR_KIT,
                quantity,
                unit,
                resolution,
                uncertainty,
                365,
                0,
                van,
                List.of());
    }

    private static Tool tool(
            String code,
            String name,
            InstrumentKind kind,
            Quantity quantity,
            MeasurementUnit unit,
            String resolution,
            String permittedError,
            int intervalDays,
            int checkEveryDays,
            int van,
            List<String> standards) {
        return new Tool(
                code,
                name,
                kind,
                quantity,
                unit,
                resolution,
                permittedError,
                intervalDays,
                checkEveryDays,
                van,
                standards);
    }

    /** What {@code van}'s technician takes to measure a quantity in a system. */
    static Tool chosen(PlannedSystem system, Quantity quantity, int van) {
        if (quantity == Quantity.SALINITY) {
            String code = switch (system.kind()) {
                case REEF, LIVE_SEAFOOD, SUPPLY -> "C-0" + van;
                case BRACKISH -> van == 2 ? "H-01" : "R-01";
                default -> system.story() == Story.RESTARTED_QUARANTINE ? "C-0" + van : "R-0" + van;
            };
            return of(code);
        }
        return all().stream()
                .filter(tool -> tool.van() == van && tool.quantity() == quantity)
                .findFirst()
                .orElseThrow();
    }

    static Tool of(String code) {
        return all().stream()
                .filter(tool -> tool.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    NewInstrument stated(LocalDate bought, LocalDate today, PersonId holder) {
        boolean isKit = kind.isKit();
        return new NewInstrument(
                code,
                name,
                kind,
                quantity,
                unit,
                gravityReference(),
                kind == InstrumentKind.REFRACTOMETER ? Optional.of(Graduation.SEAWATER) : Optional.empty(),
                new BigDecimal(resolution),
                new BigDecimal(permittedError),
                intervalDays,
                isKit ? Optional.of(lot()) : Optional.empty(),
                isKit
                        ? Optional.of(today.plusDays(KIT_SHELF_LIFE_DAYS + Math.floorMod(code.hashCode(), 40)))
                        : Optional.empty(),
                Optional.of(bought),
                Optional.empty(),
                Optional.of(holder));
    }

    String lot() {
        return "L" + (1000 + Math.floorMod(code.hashCode(), 9000));
    }

    Optional<String> gravityReference() {
        return unit == MeasurementUnit.SPECIFIC_GRAVITY ? Optional.of(GRAVITY_REFERENCE) : Optional.empty();
    }

    /** What its scale shows where the water or standard is really {@code value}; salinities as practical salinity. */
    double shown(double value) {
        return quantity == Quantity.SALINITY
                ? SalinityScales.of(unit, gravityReference()).readingIn(Salinity.ofPractical(value))
                : value;
    }

    /** A number as it is read off the scale. */
    BigDecimal readOff(double onScale) {
        int decimals = switch (unit) {
            case SPECIFIC_GRAVITY -> 4;
            case PRACTICAL_SALINITY, MILLISIEMENS_PER_CENTIMETRE -> 1;
            default -> Waters.written(0, quantity).scale();
        };
        return BigDecimal.valueOf(onScale).setScale(decimals, RoundingMode.HALF_EVEN);
    }
}
