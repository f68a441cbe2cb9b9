package app.tankround.seed;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.ContainerRegister;
import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.NewPerson;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.accounts.WaterContainerId;
import app.tankround.accounts.WaterContainerView;
import app.tankround.chemistry.DecisionRule;
import app.tankround.clients.NewSite;
import app.tankround.clients.SiteDetails;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.persistence.Uuids;
import app.tankround.units.Mass;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.visits.CallList;
import java.time.Duration;
import java.time.LocalTime;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import org.joda.money.CurrencyUnit;
import org.springframework.stereotype.Component;

/** The business itself: its settings, people, vans and depot. */
@Component
class Staff {

    private static final String OWNER = "maeve";
    private static final String OFFICE = "donal";
    private static final String FIRST_TECHNICIAN = "oisin";
    private static final String SECOND_TECHNICIAN = "brid";
    private static final String DEPOT = "DEPOT";
    private static final double ROOM_L = 1_200;
    private static final double DRUM_L = 20;
    private static final double DRUM_KG = 1.1;
    private static final double RACK_CM = 35;

    /** Of a tank of polyethylene; invented. */
    private static final double TANK_KG_PER_LITRE = 0.06;

    private final BusinessProfile business;
    private final People people;
    private final Fleet fleet;
    private final ContainerRegister containers;
    private final SiteService sites;
    private final CallList callList;
    private final CurrentPerson currentPerson;
    private final DemoClock clock;

    Staff(
            BusinessProfile business,
            People people,
            Fleet fleet,
            ContainerRegister containers,
            SiteService sites,
            CallList callList,
            CurrentPerson currentPerson,
            DemoClock clock) {
        this.business = business;
        this.people = people;
        this.fleet = fleet;
        this.containers = containers;
        this.sites = sites;
        this.callList = callList;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    void setUp() {
        business.save(new BusinessSettings(
                "Quillwater Aquatic Care",
                Optional.of("office@quillwater.example"),
                Optional.of("020 912 0417"),
                Optional.of("Slip Road Yard\nCarrowquill"),
                CurrencyUnit.EUR,
                "IE",
                Locale.UK,
                DemoDays.ZONE,
                UnitSystem.METRIC,
                Tool.GRAVITY_REFERENCE,
                0.86,
                DecisionRule.GUARD_BAND,
                0));
        person(OWNER, "Maeve Tarrant", Role.OWNER);
        person(OFFICE, "Donal Iskell", Role.OFFICE);
        person(FIRST_TECHNICIAN, "Oisín Varley", Role.TECHNICIAN);
        person(SECOND_TECHNICIAN, "Bríd Collard", Role.TECHNICIAN);
        callList.change(
                callList.current().version(),
                List.of(
                        told(OFFICE, "donal@quillwater.example", "020 912 0418", 10),
                        told(OWNER, "maeve@quillwater.example", "020 912 0419", 15)));
        DepotId depot = fleet.ensureDepot(DEPOT, "Slip Road Yard");
        sites.add(new NewSite(
                SiteId.of(Uuids.next(clock.instant())),
                new SiteDetails(
                        DEPOT,
                        null,
                        "Slip Road Yard",
                        "Slip Road 4",
                        null,
                        "Carrowquill",
                        Clientele.HARBOUR_LATITUDE + 0.004,
                        Clientele.HARBOUR_LONGITUDE - 0.012,
                        "Yard gate on the left; the plant stands behind the roller door.",
                        null,
                        null,
                        true,
                        true,
                        true,
                        true,
                        null)));
        van(1, "Heron", depot, 120, LocalTime.of(7, 45));
        van(2, "Gannet", depot, 115, LocalTime.of(7, 30));
        containers(1, List.of(250.0, 200.0), 500, 4);
        containers(2, List.of(250.0), 150, 8);
        drums(1, 6, Optional.empty(), Optional.of(depot), ContainerRole.SALT);
        drums(7, 9, Optional.empty(), Optional.of(depot), ContainerRole.FRESH);
    }

    /** Tanks that are pumped stand in each van; its drums are filled on a rack. */
    private void containers(int number, List<Double> saltTanks, double freshTank, int saltDrums) {
        Optional<VanId> van = Optional.of(van(number).id());
        int next = number * 100 + 1;
        for (double litres : saltTanks) {
            tank(next++, van, ContainerRole.SALT, litres);
        }
        tank(next++, van, ContainerRole.FRESH, freshTank);
        tank(next, van, ContainerRole.WASTE, 120);
        int drums = number * 100 + 10;
        drums(drums + 1, drums + saltDrums, van, Optional.empty(), ContainerRole.SALT);
        drums(drums + 11, drums + 18, van, Optional.empty(), ContainerRole.FRESH);
        drums(drums + 21, drums + 24, van, Optional.empty(), ContainerRole.TREATMENT);
    }

    private void tank(int number, Optional<VanId> van, ContainerRole role, double litres) {
        container(number, van, Optional.empty(), role, litres, litres * TANK_KG_PER_LITRE, true);
    }

    private void drums(int first, int last, Optional<VanId> van, Optional<DepotId> depot, ContainerRole role) {
        IntStream.rangeClosed(first, last)
                .forEach(number -> container(number, van, depot, role, DRUM_L, DRUM_KG, false));
    }

    private void container(
            int number,
            Optional<VanId> van,
            Optional<DepotId> depot,
            ContainerRole role,
            double litres,
            double emptyKg,
            boolean pumped) {
        containers.save(new WaterContainerView(
                WaterContainerId.of(Uuids.next(clock.instant())),
                Integer.toString(number),
                van,
                depot,
                role,
                Volume.ofLitres(litres),
                Mass.ofKilograms(emptyKg),
                pumped,
                pumped ? 0 : RACK_CM,
                false,
                0));
    }

    private CallList.Line told(String signInName, String email, String phone, int minutes) {
        return new CallList.Line(person(signInName), email, Optional.of(phone), Duration.ofMinutes(minutes));
    }

    private void person(String signInName, String name, Role role) {
        people.add(new NewPerson(PersonId.of(Uuids.next(clock.instant())), signInName, name, role, Locale.UK));
    }

    private void van(int number, String name, DepotId depot, double fixedKg, LocalTime leavesAt) {
        fleet.save(new VanView(
                VanId.of(Uuids.next(clock.instant())),
                "V" + number,
                name,
                depot,
                Mass.ofKilograms(900),
                Mass.ofKilograms(fixedKg),
                Optional.of(Volume.ofLitres(ROOM_L)),
                Volume.ofLitres(DRUM_L),
                Mass.ofKilograms(DRUM_KG),
                Optional.empty(),
                Optional.of(technicians().of(number)),
                leavesAt,
                0));
    }

    SiteId depotSite() {
        return sites.findByCode(DEPOT).orElseThrow().id();
    }

    VanView van(int number) {
        return fleet.vanByCode("V" + number).orElseThrow();
    }

    Technicians technicians() {
        return new Technicians(person(FIRST_TECHNICIAN), person(SECOND_TECHNICIAN));
    }

    private PersonId person(String signInName) {
        return people.findBySignInName(signInName).map(PersonView::id).orElseThrow();
    }

    /** Does office work in the name of the office. */
    void asOffice(Runnable work) {
        as(person(OFFICE), work);
    }

    /** Does something in somebody's name. */
    void as(PersonId person, Runnable work) {
        try {
            currentPerson.actingAs(person, () -> {
                work.run();
                return true;
            });
        } catch (RuntimeException refused) {
            throw refused;
        } catch (Exception checked) {
            throw new IllegalStateException(checked);
        }
    }
}
