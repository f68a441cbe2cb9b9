package app.tankround.seed;

import app.tankround.clients.ClientDetails;
import app.tankround.clients.ClientId;
import app.tankround.clients.ClientService;
import app.tankround.clients.ContactDetails;
import app.tankround.clients.ContactId;
import app.tankround.clients.LoneHazard;
import app.tankround.clients.NewClient;
import app.tankround.clients.NewContact;
import app.tankround.clients.NewSite;
import app.tankround.clients.ResidualCurrentTest;
import app.tankround.clients.SiteDetails;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteSafetyDetails;
import app.tankround.clients.SiteSafetyService;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.clients.TapWater;
import app.tankround.clients.TapWaterView;
import app.tankround.persistence.Uuids;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.VisitRhythm;
import app.tankround.tanks.EquipmentDetails;
import app.tankround.tanks.EquipmentId;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.NetVolume;
import app.tankround.tanks.NewEquipment;
import app.tankround.tanks.NewLivestock;
import app.tankround.tanks.NewTank;
import app.tankround.tanks.NewWaterSystem;
import app.tankround.tanks.SystemDetails;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TankDetails;
import app.tankround.tanks.TankId;
import app.tankround.tanks.TankMaterial;
import app.tankround.tanks.TargetPresets;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Enters clients, their sites and water systems, and what is agreed for these. */
@Component
class Contracts {

    private static final LocalTime ENTERED = LocalTime.of(8, 0);
    private static final int TOLERANCE_DAYS = 2;
    private static final double KM_PER_DEGREE = 111.2;
    private static final List<String> FIRST_NAMES =
            List.of("Nuala", "Padraic", "Sorcha", "Eamon", "Grainne", "Tomas", "Orla", "Ciaran", "Aoife", "Fergus");
    private static final List<String> LAST_NAMES =
            List.of("Marlow", "Quirke", "Dunmore", "Tallis", "Brennick", "Cassel", "Roache", "Ferriter", "Lynott");

    private final ClientService clients;
    private final SiteService sites;
    private final SiteSafetyService safety;
    private final TapWater tapWater;
    private final WaterSystems systems;
    private final TargetPresets presets;
    private static final int UNPLACED = 29;
    private static final int UNMEASURED_TAP = 7;
    private static final int SOFTEST_TAP_DGH = 5;
    private static final int HARDEST_TAP_DGH = 10;

    private final Agreements agreements;
    private final DemoClock clock;

    Contracts(
            ClientService clients,
            SiteService sites,
            SiteSafetyService safety,
            TapWater tapWater,
            WaterSystems systems,
            TargetPresets presets,
            Agreements agreements,
            DemoClock clock) {
        this.clients = clients;
        this.sites = sites;
        this.safety = safety;
        this.tapWater = tapWater;
        this.systems = systems;
        this.presets = presets;
        this.agreements = agreements;
        this.clock = clock;
    }

    /** Enters what begins in a month of the history, on its first day. */
    void enter(int month, DemoDays days, SiteId depot) {
        for (PlannedSystem system : Clientele.atDepot()) {
            if (begins(system.enteredOn(days.start(), days), month, days)) {
                enter(system, depot, days, days.start());
            }
        }
        for (PlannedSite site : Clientele.all()) {
            if (site.sinceMonth() == month) {
                enter(site);
            }
            SiteView entered = sites.findByCode(site.siteCode()).orElse(null);
            if (entered == null) {
                continue;
            }
            for (PlannedSystem system : site.systems()) {
                LocalDate on = system.enteredOn(site.since(days), days);
                if (begins(on, month, days)) {
                    enter(system, entered.id(), days, on);
                    agree(system, site, days, on);
                }
            }
        }
    }

    private static boolean begins(LocalDate day, int month, DemoDays days) {
        return !day.isBefore(days.month(month)) && day.isBefore(days.month(month + 1));
    }

    private void enter(PlannedSite site) {
        SplittableRandom random = Waters.random(site.name());
        var client = ClientId.of(id());
        clients.add(new NewClient(
                client,
                new ClientDetails(
                        site.clientCode(),
                        site.name(),
                        site.street() + "\nCarrowquill",
                        "accounts@%s.example".formatted(site.clientCode().toLowerCase(java.util.Locale.ROOT)),
                        "020 912 %04d".formatted(random.nextInt(1000, 9999)),
                        null)));
        clients.addContact(new NewContact(
                ContactId.of(id()),
                new ContactDetails(
                        "P-%03d".formatted(site.number()),
                        client,
                        FIRST_NAMES.get(random.nextInt(FIRST_NAMES.size()))
                                + " "
                                + LAST_NAMES.get(random.nextInt(LAST_NAMES.size())),
                        site.hours().isPresent() ? "Facilities" : null,
                        "020 912 %04d".formatted(random.nextInt(1000, 9999)),
                        "contact@%s.example".formatted(site.clientCode().toLowerCase(java.util.Locale.ROOT)),
                        true)));
        var place = SiteId.of(id());
        // Of one nobody has written the coordinates down yet.
        boolean placed = site.number() != UNPLACED;
        sites.add(new NewSite(
                place,
                new SiteDetails(
                        site.siteCode(),
                        client,
                        site.name(),
                        site.street(),
                        null,
                        "Carrowquill",
                        placed ? rounded(Clientele.HARBOUR_LATITUDE + site.northKm() / KM_PER_DEGREE) : null,
                        placed
                                ? rounded(Clientele.HARBOUR_LONGITUDE
                                        - site.westKm()
                                                / (KM_PER_DEGREE
                                                        * Math.cos(Math.toRadians(Clientele.HARBOUR_LATITUDE))))
                                : null,
                        site.hours().isPresent() ? "Report at the desk." : "Ring first; somebody opens.",
                        site.hours().map(PlannedSite.Hours::from).orElse(null),
                        site.hours().map(PlannedSite.Hours::until).orElse(null),
                        true,
                        site.ownDrain(),
                        site.ownRoDi(),
                        site.mixingBarrel(),
                        site.refillLitres().map(Integer::doubleValue).orElse(null))));
        agreeOnSafety(site, place);
        measureTap(site, place, random);
    }

    /** Water from the reservoir behind the town, a little different in each street; every seventh nobody has measured. */
    private void measureTap(PlannedSite site, SiteId id, SplittableRandom random) {
        if (site.number() % UNMEASURED_TAP != 0) {
            tapWater.write(
                    UUID.nameUUIDFromBytes(("tap " + site.siteCode()).getBytes(StandardCharsets.UTF_8)),
                    new TapWaterView(
                            id,
                            LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC),
                            BigDecimal.valueOf(random.nextInt(SOFTEST_TAP_DGH, HARDEST_TAP_DGH)),
                            MeasurementUnit.DEGREE_GENERAL_HARDNESS));
        }
    }

    /** What is agreed with a few that keeps people from harm; nobody has asked the others yet. */
    private void agreeOnSafety(PlannedSite site, SiteId id) {
        Optional<SiteSafetyDetails> agreed = switch (site.name()) {
            case "Lantern Quay Hotel" ->
                Optional.of(new SiteSafetyDetails(
                        ResidualCurrentTest.AGREED,
                        "Tell the desk first: the bar fridges hang on the same device.",
                        LoneHazard.NOTHING,
                        null));
            case "Quillstrand Credit Union" ->
                Optional.of(new SiteSafetyDetails(
                        ResidualCurrentTest.NEVER,
                        "The server room hangs on the same device, and an outage stops every counter.",
                        LoneHazard.NOTHING,
                        null));
            case "The Copper Gurnard" ->
                Optional.of(new SiteSafetyDetails(
                        ResidualCurrentTest.NOT_ASKED,
                        null,
                        LoneHazard.CO2_CELLAR,
                        "The chillers stand in the keg cellar. The gas alarm by the door must show green."));
            default -> Optional.empty();
        };
        agreed.ifPresent(details -> safety.change(id, 0, details));
    }

    private void enter(PlannedSystem system, SiteId site, DemoDays days, LocalDate on) {
        clock.standAt(DemoDays.at(on, ENTERED));
        var id = WaterSystemId.of(id());
        boolean quarantine = system.story() == Story.RESTARTED_QUARANTINE;
        systems.add(new NewWaterSystem(
                id,
                new SystemDetails(
                        system.code(),
                        site,
                        system.name(),
                        system.kind(),
                        volume(system),
                        startedOn(system, days),
                        Volume.ofLitres(evaporation(system)),
                        null,
                        true),
                quarantine ? InfectionClass.QUARANTINE : InfectionClass.HEALTHY,
                on,
                system.code().equals(WaterPlant.CODE) ? WaterPlant.POINTS : List.of(),
                targets(system)));
        if (system.kind() == SystemKind.SUPPLY) {
            return;
        }
        systems.addTank(new NewTank(
                TankId.of(id()),
                new TankDetails(
                        "T" + system.code().substring(1),
                        id,
                        system.name(),
                        system.acrylic() ? TankMaterial.ACRYLIC : TankMaterial.GLASS,
                        Volume.ofLitres(system.litres()))));
        int device = 0;
        for (String kind : Husbandry.devices(system.kind())) {
            device++;
            systems.addEquipment(new NewEquipment(
                    EquipmentId.of(id()),
                    new EquipmentDetails(
                            "E%s-%d".formatted(system.code().substring(1), device),
                            id,
                            kind,
                            kind + " in the cabinet",
                            on.minusDays(Waters.random(system.code() + kind).nextInt(20, 700)),
                            null)));
        }
        boolean young = system.startedDaysAgo() > 0;
        if (!young) {
            stock(system, id, on);
        }
    }

    private void stock(PlannedSystem system, WaterSystemId id, LocalDate on) {
        SplittableRandom random = Waters.random(system.code() + "animals");
        int line = 0;
        for (Husbandry.Animal animal : Husbandry.animals(system.kind())) {
            if (random.nextDouble() < 0.2) {
                continue;
            }
            line++;
            animals(system, id, line, animal, random.nextInt(1, animal.most() + 1), on);
        }
    }

    /** Puts animals into a system. */
    void animals(
            PlannedSystem system, WaterSystemId id, int line, Husbandry.Animal animal, int quantity, LocalDate on) {
        systems.addLivestock(new NewLivestock(
                LivestockId.of(id()),
                id,
                "L%s-%d".formatted(system.code().substring(1), line),
                animal.common(),
                animal.scientific(),
                quantity,
                system.kind() == SystemKind.LIVE_SEAFOOD,
                on));
    }

    private void agree(PlannedSystem system, PlannedSite site, DemoDays days, LocalDate on) {
        LocalDate first = site.firstVisit(on, days);
        int minutes = 20 + (int) Math.min(70, Math.round(system.litres() / 40) * 5 / 5);
        BigDecimal price = BigDecimal.valueOf(35 + 5 * Math.round(system.litres() / 60 + 2.0 * site.everyWeeks()))
                .setScale(2, RoundingMode.UNNECESSARY);
        agreements.add(new NewAgreement(
                "A" + system.code().substring(1),
                requireSystem(system.code()),
                VisitRhythm.eachWeekday(site.everyWeeks(), Set.of(first.getDayOfWeek()), first, Optional.empty())
                        .within(TOLERANCE_DAYS),
                minutes,
                price,
                Husbandry.tasks(system, site.everyWeeks()),
                Optional.of(first)));
    }

    private WaterSystemId requireSystem(String code) {
        return systems.findByCode(code).orElseThrow().id();
    }

    private List<TargetRange> targets(PlannedSystem system) {
        if (system.code().equals("W-003")) {
            return List.of(
                    TargetRange.of(Quantity.SALINITY, "34", "36", MeasurementUnit.PRACTICAL_SALINITY),
                    TargetRange.of(Quantity.TEMPERATURE, "22", "28", MeasurementUnit.DEGREE_CELSIUS));
        }
        return presets.of(system.kind());
    }

    private static NetVolume volume(PlannedSystem system) {
        boolean hasSump = system.kind() == SystemKind.REEF || system.kind() == SystemKind.FISH_ONLY;
        if (!hasSump) {
            return NetVolume.stated(system.litres());
        }
        double sump = Math.round(system.litres() * 0.18);
        double displacement = Math.round(system.litres() * 0.12);
        return NetVolume.calculated(system.litres() - sump + displacement, displacement, sump);
    }

    private static @Nullable LocalDate startedOn(PlannedSystem system, DemoDays days) {
        if (system.kind() == SystemKind.SUPPLY) {
            return null;
        }
        return system.startedDaysAgo() > 0
                ? days.today().minusDays(system.startedDaysAgo())
                : days.start().minusDays(Waters.random(system.code()).nextInt(60, 2200));
    }

    /** Litres a day: about 3.5 L for each square metre of surface, which a system of this size may have (common practice). */
    private static double evaporation(PlannedSystem system) {
        return system.kind() == SystemKind.SUPPLY ? 0 : Math.round(system.litres() / 80 * 10) / 10.0;
    }

    private UUID id() {
        return Uuids.next(clock.instant());
    }

    private static double rounded(double degrees) {
        return Math.round(degrees * 1e5) / 1e5;
    }
}
