package app.tankround.tanks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.ChangeLog;
import app.tankround.clients.ClientDetails;
import app.tankround.clients.ClientId;
import app.tankround.clients.ClientService;
import app.tankround.clients.NewClient;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.context.event.ApplicationEvents;
import org.springframework.test.context.event.RecordApplicationEvents;

@SpringBootTest
@IntegrationTest
@Import(Samples.class)
@RecordApplicationEvents
class WaterSystemsIntegrationTests {

    private static final LocalDate FEBRUARY = LocalDate.of(2026, 2, 1);

    @Autowired
    private Samples samples;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private ClientService clients;

    @Autowired
    private SiteService sites;

    @Autowired
    private ChangeLog changeLog;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private ApplicationEvents events;

    @Test
    void keepsASystemWithAllThatBelongsToIt() {
        SiteId site = samples.site("Foyer");
        WaterSystemId id = samples.system(site, "Reef wall", InfectionClass.HEALTHY, FEBRUARY);
        tank(id, TankMaterial.ACRYLIC);
        systems.addEquipment(new NewEquipment(
                EquipmentId.of(UUID.randomUUID()),
                new EquipmentDetails(Samples.code("E"), id, "Return pump", "P 4000", LocalDate.of(2025, 1, 2), null)));
        livestock(id, 3, LocalDate.of(2026, 2, 20), true);

        WaterSystemView system = systems.require(id);

        assertThat(system.netVolume()).isEqualTo(Volume.ofLitres(638));
        assertThat(system.basis()).isEqualTo(VolumeBasis.CALCULATED);
        assertThat(system.displacement()).contains(Volume.ofLitres(72));
        assertThat(system.hasAcrylic()).isTrue();
        assertThat(system.eaten()).isTrue();
        assertThat(systems.tanks(id)).hasSize(1);
        assertThat(systems.equipment(id)).extracting(EquipmentView::kind).containsExactly("Return pump");
        assertThat(systems.samplePoints(id)).extracting(SamplePointView::name).containsExactly("Display", "Sump");
        assertThat(systems.targets(id))
                .extracting(TargetView::quantity)
                .startsWith(Quantity.TEMPERATURE, Quantity.SALINITY, Quantity.PH);
        assertThat(systems.bySite(site)).containsExactly(system);
    }

    @Test
    void glassTankWithoutLivestockIsNeitherAcrylicNorEaten() {
        WaterSystemId id = samples.system(samples.site("Bar"), "Bar", InfectionClass.HEALTHY, FEBRUARY);
        tank(id, TankMaterial.GLASS);

        assertThat(systems.require(id).hasAcrylic()).isFalse();
        assertThat(systems.require(id).eaten()).isFalse();
    }

    @Test
    void addingAnAnimalRestartsTheQuarantineAndRecordsIt() {
        WaterSystemId id = samples.system(samples.site("Back room"), "Q1", InfectionClass.QUARANTINE, FEBRUARY);

        livestock(id, 2, LocalDate.of(2026, 2, 25), false);

        assertThat(systems.require(id).classSince()).isEqualTo(LocalDate.of(2026, 2, 25));
        assertThat(systems.require(id).dayInClass(LocalDate.of(2026, 3, 2))).isEqualTo(6);
        assertThat(changeLog.of("water-system", id.value()).getFirst()).satisfies(line -> {
            assertThat(line.action()).isEqualTo("quarantine-restarted");
            assertThat(line.detail()).contains("2026-02-01", "2026-02-25", "Clownfish");
        });
        assertThat(events.stream(LivestockAdded.class)).contains(new LivestockAdded(id, LocalDate.of(2026, 2, 25)));
    }

    @Test
    void addingAnAnimalTwiceCountsOnce() {
        WaterSystemId id = samples.system(samples.site("Back room"), "Q2", InfectionClass.QUARANTINE, FEBRUARY);
        var added = new NewLivestock(
                LivestockId.of(UUID.randomUUID()),
                id,
                Samples.code("L"),
                "Clownfish",
                null,
                2,
                false,
                LocalDate.of(2026, 2, 10));

        systems.addLivestock(added);
        systems.changeInfectionClass(
                id, systems.require(id).version(), InfectionClass.QUARANTINE, LocalDate.of(2026, 2, 5), null);
        systems.addLivestock(added);

        assertThat(systems.livestock(id)).hasSize(1);
        assertThat(systems.require(id).classSince()).isEqualTo(LocalDate.of(2026, 2, 5));
    }

    @Test
    void anAnimalElsewhereRestartsNothing() {
        WaterSystemId healthy = samples.system(samples.site("Hall"), "H1", InfectionClass.HEALTHY, FEBRUARY);
        WaterSystemId quarantine = samples.system(samples.site("Hall"), "H2", InfectionClass.QUARANTINE, FEBRUARY);

        livestock(healthy, 2, LocalDate.of(2026, 2, 25), false);
        livestock(quarantine, 2, LocalDate.of(2026, 1, 15), false);

        assertThat(systems.require(healthy).classSince()).isEqualTo(FEBRUARY);
        assertThat(systems.require(quarantine).classSince()).isEqualTo(FEBRUARY);
    }

    @Test
    void refusesMoreAnimalsInAQuarantineByCorrection() {
        WaterSystemId id = samples.system(samples.site("Back room"), "Q3", InfectionClass.QUARANTINE, FEBRUARY);
        LivestockView animals = livestock(id, 2, FEBRUARY, false);

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> systems.changeLivestock(animals.id(), animals.version(), details(animals, 3)))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("quantity"));
        systems.changeLivestock(animals.id(), animals.version(), details(animals, 1));

        assertThat(systems.requireLivestock(animals.id()).quantity()).isEqualTo(1);
    }

    @Test
    void takesLossesOffTheCountButNeverMoreThanThereAre() {
        WaterSystemId id = samples.system(samples.site("Hall"), "H3", InfectionClass.HEALTHY, FEBRUARY);
        LivestockView animals = livestock(id, 3, FEBRUARY, false);

        systems.recordLoss(animals.id(), 2, LocalDate.of(2026, 3, 1), "found dead");

        assertThat(systems.requireLivestock(animals.id()).quantity()).isEqualTo(1);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> systems.recordLoss(animals.id(), 2, LocalDate.of(2026, 3, 1), null))
                .satisfies(refusal -> assertThat(refusal.args()).containsExactly(2, 1, 1));
    }

    @Test
    void refusesAClassThatBeginsInTheFuture() {
        WaterSystemId id = samples.system(samples.site("Hall"), "H4", InfectionClass.HEALTHY, FEBRUARY);

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> systems.changeInfectionClass(
                        id, systems.require(id).version(), InfectionClass.TREATMENT, LocalDate.of(2026, 3, 9), null))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("classSince"));
        assertThat(systems.require(id).infectionClass()).isEqualTo(InfectionClass.HEALTHY);
    }

    @Test
    void refusesAStaleVersionAndShowsBoth() {
        WaterSystemId id = samples.system(samples.site("Hall"), "H5", InfectionClass.HEALTHY, FEBRUARY);
        WaterSystemView seen = systems.require(id);
        systems.changeInfectionClass(id, seen.version(), InfectionClass.SUSPECTED, FEBRUARY, "white spots");

        assertThatExceptionOfType(StaleVersion.class)
                .isThrownBy(() ->
                        systems.changeInfectionClass(id, seen.version(), InfectionClass.TREATMENT, FEBRUARY, null))
                .satisfies(stale -> {
                    assertThat(stale.theirs())
                            .hasToString("ClassAndDay[infectionClass=SUSPECTED, classSince=2026-02-01]");
                    assertThat(stale.yours())
                            .hasToString("ClassAndDay[infectionClass=TREATMENT, classSince=2026-02-01]");
                });
    }

    @Test
    void keepsSamplePointsThatStayAndTheirOrder() {
        SiteId site = samples.site("Plant");
        WaterSystemId id = samples.system(site, "RO", InfectionClass.HEALTHY, FEBRUARY);
        SamplePointId sump = systems.samplePoints(id).get(1).id();
        SystemDetails details = Samples.details(site, "RO", SystemKind.SUPPLY);

        systems.change(id, systems.require(id).version(), details, List.of("Sump", "Permeate"));

        assertThat(systems.samplePoints(id)).extracting(SamplePointView::name).containsExactly("Sump", "Permeate");
        assertThat(systems.samplePoints(id).getFirst().id()).isEqualTo(sump);
    }

    @Test
    void replacesTargetsAndLogsBoth() {
        WaterSystemId id = samples.system(samples.site("Hall"), "H6", InfectionClass.HEALTHY, FEBRUARY);

        systems.changeTargets(
                id,
                systems.require(id).version(),
                List.of(
                        TargetRange.ofGravity("1.0235", "1.026", "60F/60F"),
                        TargetRange.of(Quantity.PH, "7.9", null, MeasurementUnit.PH_UNIT)));

        assertThat(systems.targets(id)).hasSize(2).first().satisfies(target -> {
            assertThat(target.low().orElseThrow()).hasToString("1.0235");
            assertThat(target.gravityReference()).contains("60F/60F");
        });
        assertThat(changeLog.of("water-system", id.value()).getFirst().action()).isEqualTo("targets-changed");
    }

    @Test
    void refusesACodeThatIsTaken() {
        SiteId site = samples.site("Hall");
        WaterSystemId id = samples.system(site, "Taken", InfectionClass.HEALTHY, FEBRUARY);
        String code = systems.require(id).code();

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> systems.addTank(new NewTank(
                        TankId.of(UUID.randomUUID()),
                        new TankDetails(tank(id, TankMaterial.GLASS).code(), id, "Other", TankMaterial.GLASS, null))))
                .satisfies(refusal -> assertThat(refusal.code()).isEqualTo("web.code-taken"));
        assertThat(systems.findByCode(code)).isPresent();
    }

    @Test
    void createsOnceWhenTheSameFormArrivesTwiceAtOnce() throws Exception {
        ClientId id = ClientId.of(UUID.randomUUID());
        var added = new NewClient(id, new ClientDetails(Samples.code("K"), "Twice", null, null, null, null));

        try (var threads = Executors.newFixedThreadPool(4)) {
            List<Callable<ClientId>> sends = Stream.generate(() -> (Callable<ClientId>) () -> clients.add(added))
                    .limit(8)
                    .toList();
            for (var answer : threads.invokeAll(sends)) {
                assertThat(answer.get()).isEqualTo(id);
            }
        }

        assertThat(changeLog.of("client", id.value())).hasSize(1);
    }

    @Test
    void refusesAnotherClientUnderTheSameId() {
        ClientId id = ClientId.of(UUID.randomUUID());
        clients.add(new NewClient(id, new ClientDetails(Samples.code("K"), "First", null, null, null, null)));

        assertThatExceptionOfType(StaleVersion.class)
                .isThrownBy(() -> clients.add(
                        new NewClient(id, new ClientDetails(Samples.code("K"), "Second", null, null, null, null))));
        assertThat(clients.require(id).name()).isEqualTo("First");
    }

    @Test
    void findsClientsByWhateverTheOfficeRemembers() {
        ClientId client = samples.client("Zephyr Lounge");
        samples.site(client, "Zephyr cellar");

        assertThat(clients.search("zephyr CEL")).extracting("id").containsExactly(client);
        assertThat(clients.search("  Zephyr lounge ")).extracting("id").containsExactly(client);
        assertThat(clients.search("100%_' nothing")).isEmpty();
    }

    @Test
    void databaseRefusesWhatTheDomainRefuses() {
        SiteId site = samples.site("Hall");
        WaterSystemId id = samples.system(site, "Constraint", InfectionClass.HEALTHY, FEBRUARY);

        assertThatExceptionOfType(DataIntegrityViolationException.class)
                .isThrownBy(() -> jdbc.sql("update water_system set net_volume_l = -1 where id = :id")
                        .param("id", id.value())
                        .update());
        assertThatExceptionOfType(DataIntegrityViolationException.class)
                .isThrownBy(() -> jdbc.sql("update site set latitude = 91 where id = :id")
                        .param("id", site.value())
                        .update());
        assertThatExceptionOfType(DataIntegrityViolationException.class)
                .isThrownBy(() -> jdbc.sql("update target set low = 40, high = 30 where water_system = :id")
                        .param("id", id.value())
                        .update());
        assertThat(sites.require(site).latitude()).isEqualTo(52.37);
    }

    private TankView tank(WaterSystemId id, TankMaterial material) {
        TankId tank = systems.addTank(new NewTank(
                TankId.of(UUID.randomUUID()),
                new TankDetails(Samples.code("T"), id, "Display", material, Volume.ofLitres(600))));
        return systems.requireTank(tank);
    }

    private LivestockView livestock(WaterSystemId id, int quantity, LocalDate on, boolean eaten) {
        return systems.requireLivestock(systems.addLivestock(new NewLivestock(
                LivestockId.of(UUID.randomUUID()),
                id,
                Samples.code("L"),
                "Clownfish",
                "Amphiprion ocellaris",
                quantity,
                eaten,
                on)));
    }

    private static LivestockDetails details(LivestockView animals, int quantity) {
        return new LivestockDetails(
                animals.code(),
                animals.systemId(),
                animals.commonName(),
                animals.scientificName().orElse(null),
                quantity,
                animals.addedOn().orElse(null),
                animals.willBeEaten());
    }
}
