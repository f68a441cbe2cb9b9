package app.tankround.tablet;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.documents.FileId;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.NewCalibration;
import app.tankround.instruments.NewInstrument;
import app.tankround.instruments.NewStandard;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRegister;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.StopId;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import app.tankround.web.Entry;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;

/** A stop of today's round with one marine system, and instruments whose errors are known. */
@Component
class VisitFixture {

    static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    private static final AtomicInteger NUMBER = new AtomicInteger();

    private final TestPeople people;
    private final JdbcClient jdbc;
    private final Agreements agreements;
    private final RoundService rounds;
    private final InstrumentRegister instruments;
    private final StandardRegister standards;
    private final CalibrationService calibrations;
    private final JsonMapper json;
    private final EntryInbox inbox;
    private final Photos photos;

    VisitFixture(
            TestPeople people,
            JdbcClient jdbc,
            Agreements agreements,
            RoundService rounds,
            InstrumentRegister instruments,
            StandardRegister standards,
            CalibrationService calibrations,
            JsonMapper json,
            EntryInbox inbox,
            Photos photos) {
        this.people = people;
        this.jdbc = jdbc;
        this.agreements = agreements;
        this.rounds = rounds;
        this.instruments = instruments;
        this.standards = standards;
        this.calibrations = calibrations;
        this.json = json;
        this.inbox = inbox;
        this.photos = photos;
    }

    record Stop(
            PersonId technician, RoundId round, StopId stop, SiteId site, WaterSystemId system, PlannedVisitId due) {

        UUID visit() {
            return stop.value();
        }
    }

    /** @param more tasks agreed beside the usual three */
    Stop stop(TaskView... more) {
        return stops(1, Stream.concat(usual().stream(), Stream.of(more)).toList())
                .getFirst();
    }

    /** The only stop of a technician who has just come to the business, so that the day is as short as a day is. */
    Stop onlyStop(TaskView... more) {
        jdbc.sql("update person set sign_in_name = sign_in_name || '-' || left(id::text, 8) where sign_in_name = :name")
                .param("name", Role.TECHNICIAN.name().toLowerCase(Locale.ROOT))
                .update();
        return stop(more);
    }

    /** One round with that many stops, in the order of the round. */
    List<Stop> stops(int count) {
        return stops(count, usual());
    }

    private static List<TaskView> usual() {
        return List.of(
                TaskView.waterChangePercent(BigDecimal.TEN),
                TaskView.sockSwap(2, SockSize.ofDiameter(100), 4),
                TaskView.work("Clean the glass"));
    }

    private List<Stop> stops(int count, List<TaskView> tasks) {
        PersonId technician = people.person(Role.TECHNICIAN);
        TestBusiness business = new TestBusiness(jdbc);
        Map<SiteId, WaterSystemId> systems = new LinkedHashMap<>();
        for (int number = 0; number < count; number++) {
            UUID site =
                    business.site("Bellwether " + NUMBER.incrementAndGet(), 53.3 - number / 100.0, -6.2, null, null);
            systems.put(SiteId.of(site), systemAt(business, site, tasks));
        }
        UUID van = business.van("Van " + NUMBER.get(), 53.31, -6.21);
        jdbc.sql("update van set technician_id = :technician where id = :van")
                .param("technician", technician.value())
                .param("van", van)
                .update();
        RoundId round = rounds.plan(TODAY, VanId.of(van), List.copyOf(systems.keySet()));
        return rounds.require(round).stops().stream()
                .map(planned -> new Stop(
                        technician,
                        round,
                        planned.id(),
                        planned.siteId(),
                        Objects.requireNonNull(systems.get(planned.siteId())),
                        planned.plannedVisits().getFirst()))
                .toList();
    }

    private WaterSystemId systemAt(TestBusiness business, UUID site, List<TaskView> tasks) {
        UUID system = business.system(site, "Dining room", "HEALTHY");
        jdbc.sql("""
                        insert into target (water_system, quantity, low, high, unit, gravity_reference)
                        values (:system, 'SALINITY', 1.023, 1.026, 'SG', '20/20'),
                            (:system, 'TEMPERATURE', 23, 27, 'degC', null)
                        """).param("system", system).update();
        agreements.add(new NewAgreement(
                "A-" + system,
                WaterSystemId.of(system),
                1,
                Set.of(DayOfWeek.MONDAY),
                TODAY,
                Optional.empty(),
                60,
                new BigDecimal("85.00"),
                tasks,
                Optional.of(TODAY)));
        return WaterSystemId.of(system);
    }

    /**
     * A visit as most are: eight readings with the instruments and kits for them in the technician's hands, a fifth of the
     * water, two socks.
     */
    Stop standardStop() {
        Stop stop = stops(
                        1,
                        List.of(
                                TaskView.waterChangePercent(new BigDecimal(20)),
                                TaskView.sockSwap(2, new SockSize(100, Optional.of(400), Optional.of(200)), 4)))
                .getFirst();
        jdbc.sql("""
                        insert into target (water_system, quantity, low, high, unit)
                        values (:system, 'PH', 7.9, 8.4, 'pH'), (:system, 'ALKALINITY', 7, 9, 'dKH'),
                            (:system, 'CALCIUM', 400, 450, 'mg/L'), (:system, 'MAGNESIUM', 1250, 1400, 'mg/L'),
                            (:system, 'NITRATE', 0, 25, 'mg/L'), (:system, 'PHOSPHATE', 0, 0.1, 'mg/L')
                        """).param("system", stop.system().value()).update();
        refractometer("1.0266");
        tool(InstrumentKind.THERMOMETER, Quantity.TEMPERATURE, MeasurementUnit.DEGREE_CELSIUS, "0.1");
        tool(InstrumentKind.PH_METER, Quantity.PH, MeasurementUnit.PH_UNIT, "0.01");
        tool(InstrumentKind.TITRATION_KIT, Quantity.ALKALINITY, MeasurementUnit.DEGREE_CARBONATE_HARDNESS, "0.1");
        tool(InstrumentKind.TITRATION_KIT, Quantity.CALCIUM, MeasurementUnit.MILLIGRAMS_PER_LITRE, "5");
        tool(InstrumentKind.TITRATION_KIT, Quantity.MAGNESIUM, MeasurementUnit.MILLIGRAMS_PER_LITRE, "10");
        tool(InstrumentKind.COLOUR_KIT, Quantity.NITRATE, MeasurementUnit.MILLIGRAMS_PER_LITRE, "1");
        tool(InstrumentKind.COLOUR_KIT, Quantity.PHOSPHATE, MeasurementUnit.MILLIGRAMS_PER_LITRE, "0.01");
        return stop;
    }

    /** An instrument or kit in the technician's hands. */
    InstrumentId tool(InstrumentKind kind, Quantity quantity, MeasurementUnit unit, String resolution) {
        int number = NUMBER.incrementAndGet();
        return instruments.add(new NewInstrument(
                "V-T" + number,
                "Tool for " + quantity,
                kind,
                quantity,
                unit,
                Optional.empty(),
                Optional.empty(),
                new BigDecimal(resolution),
                new BigDecimal(resolution),
                90,
                kind.isKit() ? Optional.of("L-" + number) : Optional.empty(),
                kind.isKit() ? Optional.of(TODAY.plusYears(1)) : Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.of(people.person(Role.TECHNICIAN))));
    }

    /** No later visit has them at hand. */
    void putToolsAway() {
        jdbc.sql("update instrument set retired_on = :today where code like 'V-T%'")
                .param("today", TODAY)
                .update();
    }

    /** Gives the stop's system sample points of these names; answers their ids in that order. */
    List<String> samplePoints(Stop stop, String... names) {
        List<String> ids = new ArrayList<>();
        for (String name : names) {
            String id = UUID.randomUUID().toString();
            jdbc.sql("""
                            insert into sample_point (id, water_system, position, name)
                            values (cast(:id as uuid), :system, :position, :name)
                            """)
                    .param("id", id)
                    .param("system", stop.system().value())
                    .param("position", ids.size())
                    .param("name", name)
                    .update();
            ids.add(id);
        }
        return ids;
    }

    /** A refractometer in the technician's hands that showed {@code shown} in a standard of salinity 35 this morning. */
    InstrumentId refractometer(String shown) {
        PersonId technician = people.person(Role.TECHNICIAN);
        int number = NUMBER.incrementAndGet();
        InstrumentId instrument = instruments.add(new NewInstrument(
                "V-R" + number,
                "Refractometer",
                InstrumentKind.REFRACTOMETER,
                Quantity.SALINITY,
                MeasurementUnit.SPECIFIC_GRAVITY,
                Optional.of("20/20"),
                Optional.empty(),
                new BigDecimal("0.001"),
                new BigDecimal("0.001"),
                7,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.of(technician)));
        check(instrument, shown, 7200);
        return instrument;
    }

    /** Checks it in a bottle of its own of salinity 35, so many seconds before the visit. */
    void check(InstrumentId instrument, String shown, long before) {
        StandardId standard = standards.add(new NewStandard(
                "V-ST" + NUMBER.incrementAndGet(),
                "Standard 35",
                StandardKind.SEAWATER,
                Quantity.SALINITY,
                new BigDecimal("35"),
                MeasurementUnit.PRACTICAL_SALINITY,
                new BigDecimal("0.1"),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty()));
        BigDecimal found = new BigDecimal(shown);
        calibrations.record(new NewCalibration(
                instrument,
                TestClock.START.minusSeconds(before),
                Optional.of(people.person(Role.TECHNICIAN)),
                List.of(NewCalibration.Point.single(standard, found, found, Optional.empty())),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                true));
    }

    /** A visit of an earlier day, outside of any round, that left photos of the stop's system: their ids. */
    List<UUID> photosBefore(Stop stop, LocalDate on, Map<String, byte[]> byCaption) {
        UUID visit = Uuids.next(TestClock.START);
        inbox.take(about(visit, stop, "visit.start", "{'site':'%s','date':'%s'}".formatted(stop.site(), on)));
        List<UUID> taken = new ArrayList<>();
        byCaption.forEach((caption, content) -> {
            UUID photo = Uuids.next(TestClock.START);
            photos.store(FileId.of(photo), content);
            inbox.take(about(
                    visit,
                    stop,
                    "visit.photo",
                    "{'photo':'%s','caption':'%s','system':'%s'}".formatted(photo, caption, stop.system())));
            taken.add(photo);
        });
        return taken;
    }

    /** A picture of much detail, as JPEG: each of its blocks is of another colour. */
    static byte[] picture(int width, int height, int block) {
        var drawn = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        var random = new Random(7);
        for (int y = 0; y < height; y += block) {
            for (int x = 0; x < width; x += block) {
                int colour = random.nextInt(0x1000000);
                for (int at = 0; at < block * block; at++) {
                    drawn.setRGB(Math.min(width - 1, x + at % block), Math.min(height - 1, y + at / block), colour);
                }
            }
        }
        var bytes = new ByteArrayOutputStream();
        try {
            ImageIO.write(drawn, "jpg", bytes);
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
        return bytes.toByteArray();
    }

    /** An entry of the technician; the body is JSON with single quotes. */
    Entry entry(Stop stop, String kind, String body) {
        return entry(stop, kind, body, null);
    }

    Entry entry(Stop stop, String kind, String body, @Nullable String base) {
        return entry(stop.visit(), stop, kind, body, base);
    }

    private Entry about(UUID visit, Stop stop, String kind, String body) {
        return entry(visit, stop, kind, body, null);
    }

    private Entry entry(UUID visit, Stop stop, String kind, String body, @Nullable String base) {
        return new Entry(
                Uuids.next(TestClock.START),
                kind,
                Optional.of(visit),
                "test-device",
                NUMBER.incrementAndGet(),
                TestClock.START.atOffset(ZoneOffset.ofHours(1)),
                Duration.ZERO,
                Optional.ofNullable(base).map(text -> json.readTree(text.replace('\'', '"'))),
                json.readTree(body.replace('\'', '"')),
                stop.technician().value());
    }

    /** What a refractometer showed in the system, as the page sends it. */
    static String salinity(Stop stop, InstrumentId instrument, String value) {
        return """
                {'system':'%s','quantity':'SALINITY','answer':'VALUE','value':'%s','unit':'SG',\
                'gravityReference':'20/20','instrument':'%s'}""".formatted(stop.system(), value, instrument);
    }
}
