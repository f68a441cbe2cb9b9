package app.tankround.readings;

import app.tankround.accounts.NewPerson;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.clients.NewSite;
import app.tankround.clients.SiteDetails;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.NewCalibration;
import app.tankround.instruments.NewInstrument;
import app.tankround.instruments.NewStandard;
import app.tankround.instruments.RecordedCheck;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRegister;
import app.tankround.instruments.StandardView;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.NetVolume;
import app.tankround.tanks.NewWaterSystem;
import app.tankround.tanks.SystemDetails;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** A tank, an instrument and standards to try things on; every one has a code of its own. */
@Component
public class Bench {

    private static final AtomicInteger NUMBER = new AtomicInteger();

    private final SiteService sites;
    private final WaterSystems systems;
    private final People people;
    private final InstrumentRegister instruments;
    private final StandardRegister standards;
    private final CalibrationService calibrations;
    private final TestClock clock;

    Bench(
            SiteService sites,
            WaterSystems systems,
            People people,
            InstrumentRegister instruments,
            StandardRegister standards,
            CalibrationService calibrations,
            TestClock clock) {
        this.sites = sites;
        this.systems = systems;
        this.people = people;
        this.instruments = instruments;
        this.standards = standards;
        this.calibrations = calibrations;
        this.clock = clock;
    }

    public PersonId person() {
        return person(Role.TECHNICIAN);
    }

    public PersonId person(Role role) {
        return people.add(new NewPerson(
                PersonId.of(Uuids.next(clock.instant())), code("tech"), "Invented Person", role, Locale.UK));
    }

    /** A marine system whose salinity is meant to lie from 30 to 35. */
    public WaterSystemId marineSystem() {
        return system(SystemKind.FISH_ONLY);
    }

    /** Where water is mixed. */
    public WaterSystemId vat() {
        return system(SystemKind.SUPPLY);
    }

    private WaterSystemId system(SystemKind kind) {
        SiteId site = sites.add(new NewSite(
                SiteId.of(Uuids.next(clock.instant())),
                new SiteDetails(
                        code("site"),
                        null,
                        "Depot",
                        null,
                        null,
                        null,
                        52.0,
                        4.0,
                        null,
                        null,
                        null,
                        true,
                        true,
                        true,
                        true,
                        null)));
        return systems.add(new NewWaterSystem(
                WaterSystemId.of(Uuids.next(clock.instant())),
                new SystemDetails(
                        code("sys"),
                        site,
                        "Dining room",
                        kind,
                        NetVolume.stated(640),
                        null,
                        Volume.ofLitres(5),
                        null,
                        true),
                InfectionClass.HEALTHY,
                LocalDate.parse("2025-01-01"),
                List.of("display"),
                List.of(
                        TargetRange.of(Quantity.SALINITY, "30", "35", MeasurementUnit.PRACTICAL_SALINITY),
                        TargetRange.of(Quantity.NITRATE, null, "40", MeasurementUnit.MILLIGRAMS_PER_LITRE),
                        TargetRange.of(Quantity.AMMONIA, null, "0", MeasurementUnit.MILLIGRAMS_PER_LITRE))));
    }

    /** Reads specific gravity 20/20 in steps of 0.001, may be off by 0.001, is checked every 60 days. */
    public InstrumentId refractometer() {
        return instruments.add(instrument(
                InstrumentKind.REFRACTOMETER,
                Quantity.SALINITY,
                MeasurementUnit.SPECIFIC_GRAVITY,
                "20/20",
                "0.001",
                "0.001"));
    }

    public InstrumentId thermometer() {
        return instruments.add(instrument(
                InstrumentKind.THERMOMETER, Quantity.TEMPERATURE, MeasurementUnit.DEGREE_CELSIUS, null, "0.1", "0.3"));
    }

    /** Reads dissolved solids in steps of 1 mg/L, may be off by 2. */
    public InstrumentId pen() {
        return instruments.add(instrument(
                InstrumentKind.TDS_PEN,
                Quantity.DISSOLVED_SOLIDS,
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                null,
                "1",
                "2"));
    }

    /** Dissolved solids of {@code value} mg/L, give or take 0.2 (k = 2). */
    public StandardId solids(String value) {
        return standards.add(standard(
                code("TDS"),
                "Dissolved solids",
                value.equals("0") ? StandardKind.PURE_WATER : StandardKind.CONDUCTIVITY,
                Quantity.DISSOLVED_SOLIDS,
                value,
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                "0.2"));
    }

    public InstrumentId kit(Quantity quantity, String permittedError, @Nullable LocalDate expiresOn) {
        NewInstrument kit = instrument(
                InstrumentKind.COLOUR_KIT, quantity, quantity.units().getFirst(), null, "0.05", permittedError);
        return instruments.add(new NewInstrument(
                kit.code(),
                kit.name(),
                kit.kind(),
                kit.quantity(),
                kit.unit(),
                kit.gravityReference(),
                kit.graduation(),
                kit.resolution(),
                kit.permittedError(),
                kit.checkIntervalDays(),
                kit.lot(),
                Optional.ofNullable(expiresOn),
                kit.purchasedOn(),
                kit.retiredOn(),
                kit.holder()));
    }

    /** A reading that may be believed: on a kit, or for a temperature, which no kit measures, by what its lot names. */
    public NewReading believed(NewReading reading) {
        return reading.quantity() == Quantity.TEMPERATURE
                ? reading.withKitLot("T-7")
                : reading.withInstrument(kit(reading.quantity(), "0.1", null));
    }

    public NewInstrument instrument(
            InstrumentKind kind,
            Quantity quantity,
            MeasurementUnit unit,
            @Nullable String reference,
            String resolution,
            String permittedError) {
        return new NewInstrument(
                code("R"),
                "Hand instrument",
                kind,
                quantity,
                unit,
                Optional.ofNullable(reference),
                Optional.empty(),
                new BigDecimal(resolution),
                new BigDecimal(permittedError),
                60,
                Optional.empty(),
                Optional.empty(),
                Optional.of(LocalDate.parse("2024-01-01")),
                Optional.empty(),
                Optional.empty());
    }

    /** A standard of which nothing is known but what it is worth. */
    public NewStandard standard(
            String code,
            String name,
            StandardKind kind,
            Quantity quantity,
            String value,
            MeasurementUnit unit,
            String uncertainty) {
        return new NewStandard(
                code,
                name,
                kind,
                quantity,
                new BigDecimal(value),
                unit,
                new BigDecimal(uncertainty),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
    }

    /** Says since when a standard is not believed any more, or that it is. */
    public void disbelieve(StandardId id, Optional<LocalDate> since) {
        StandardView stored = standards.require(id);
        standards.change(
                id,
                stored.version(),
                new NewStandard(
                        stored.code(),
                        stored.name(),
                        stored.kind(),
                        stored.quantity(),
                        stored.value(),
                        stored.unit(),
                        stored.uncertainty(),
                        stored.valueTemperature(),
                        stored.lot(),
                        stored.openedOn(),
                        stored.expiresOn(),
                        stored.openDays(),
                        since,
                        since.map(day -> "stood open over night")));
    }

    /** Practical salinity of {@code value}, give or take 0.2 (k = 2). */
    public StandardId salinityStandard(String value) {
        return salinityStandard(value, "L-1");
    }

    public StandardId salinityStandard(String value, String lot) {
        return standards.add(new NewStandard(
                code("ST"),
                "Standard",
                value.equals("0") ? StandardKind.PURE_WATER : StandardKind.SEAWATER,
                Quantity.SALINITY,
                new BigDecimal(value),
                MeasurementUnit.PRACTICAL_SALINITY,
                new BigDecimal(value.equals("0") ? "0" : "0.2"),
                Optional.of(new BigDecimal("20")),
                Optional.of(lot),
                Optional.empty(),
                Optional.of(LocalDate.parse("2027-01-01")),
                Optional.empty(),
                Optional.empty(),
                Optional.empty()));
    }

    public RecordedCheck check(
            InstrumentId instrument, StandardId standard, Instant at, String asFound, String asLeft) {
        return check(
                instrument,
                at,
                NewCalibration.Point.single(
                        standard, new BigDecimal(asFound), new BigDecimal(asLeft), Optional.empty()));
    }

    /** Of what is never adjusted. */
    public RecordedCheck check(InstrumentId instrument, StandardId standard, Instant at, String asFound) {
        return check(
                instrument,
                at,
                new NewCalibration.Point(standard, List.of(new BigDecimal(asFound)), List.of(), Optional.empty()));
    }

    private RecordedCheck check(InstrumentId instrument, Instant at, NewCalibration.Point point) {
        return calibrations.record(new NewCalibration(
                instrument,
                at,
                Optional.empty(),
                List.of(point),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                false));
    }

    public NewReading gravity(
            WaterSystemId system, InstrumentId instrument, PersonId person, String value, Instant at) {
        return NewReading.of(
                        ReadingId.of(Uuids.next(at)),
                        system,
                        Quantity.SALINITY,
                        new BigDecimal(value),
                        MeasurementUnit.SPECIFIC_GRAVITY,
                        at,
                        person)
                .withGravityReference("20/20")
                .withInstrument(instrument);
    }

    public Instant daysAgo(int days) {
        return clock.instant().minus(Duration.ofDays(days));
    }

    public String code(String prefix) {
        return prefix + "-" + NUMBER.incrementAndGet();
    }
}
