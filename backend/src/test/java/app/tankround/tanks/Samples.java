package app.tankround.tanks;

import app.tankround.clients.ClientDetails;
import app.tankround.clients.ClientId;
import app.tankround.clients.ClientService;
import app.tankround.clients.NewClient;
import app.tankround.clients.NewSite;
import app.tankround.clients.SiteDetails;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.units.Volume;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.UUID;
import org.springframework.boot.test.context.TestComponent;

/** A client with a site, and systems there, each with a code of its own. */
@TestComponent
public class Samples {

    private final ClientService clients;
    private final SiteService sites;
    private final WaterSystems systems;
    private final TargetPresets presets;

    Samples(ClientService clients, SiteService sites, WaterSystems systems, TargetPresets presets) {
        this.clients = clients;
        this.sites = sites;
        this.systems = systems;
        this.presets = presets;
    }

    public static String code(String prefix) {
        return prefix + "-" + UUID.randomUUID();
    }

    public ClientId client(String name) {
        return clients.add(new NewClient(
                ClientId.of(UUID.randomUUID()), new ClientDetails(code("K"), name, null, null, null, null)));
    }

    public SiteId site(String name) {
        return site(client("Client of " + name), name);
    }

    public SiteId site(ClientId client, String name) {
        return sites.add(new NewSite(
                SiteId.of(UUID.randomUUID()),
                new SiteDetails(
                        code("S"),
                        client,
                        name,
                        "1 Quay",
                        "1011",
                        "Marlow",
                        52.37,
                        4.9,
                        "Ring twice",
                        LocalTime.of(9, 0),
                        LocalTime.of(17, 0),
                        true,
                        true,
                        false,
                        false,
                        null)));
    }

    public static SystemDetails details(SiteId site, String name, SystemKind kind) {
        return new SystemDetails(
                code("W"),
                site,
                name,
                kind,
                NetVolume.calculated(600, 72, 110),
                LocalDate.of(2024, 5, 1),
                Volume.ofLitres(4),
                null,
                true);
    }

    public WaterSystemId system(SiteId site, String name, InfectionClass infectionClass, LocalDate since) {
        return systems.add(new NewWaterSystem(
                WaterSystemId.of(UUID.randomUUID()),
                details(site, name, SystemKind.FISH_ONLY),
                infectionClass,
                since,
                List.of("Display", "Sump"),
                presets.of(SystemKind.FISH_ONLY)));
    }
}
