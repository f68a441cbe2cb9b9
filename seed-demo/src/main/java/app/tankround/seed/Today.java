package app.tankround.seed;

import app.tankround.accounts.Fleet;
import app.tankround.accounts.VanView;
import app.tankround.chemistry.CorrectivePlan;
import app.tankround.clients.SiteId;
import app.tankround.persistence.Uuids;
import app.tankround.plans.CorrectivePlanId;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.NewPlan;
import app.tankround.plans.PlanFollowing;
import app.tankround.plans.PlanMaking;
import app.tankround.readings.ReadingService;
import app.tankround.rounds.AnimalDeliveries;
import app.tankround.rounds.AnimalDelivery;
import app.tankround.rounds.ArrivalPromises;
import app.tankround.rounds.DueStop;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.StopDemand;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.Holidays;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposals;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Mass;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;

/** The last step: what is planted in the newest days, and the rounds of today. */
@Component
class Today {

    /** Days. */
    private static final int TWO_VISITS = 14;

    private static final LocalTime BACK_AT_DEPOT = LocalTime.of(19, 10);
    private static final LocalTime MORNING = LocalTime.of(5, 30);
    /** The van that is one drum too heavy, and by how much: less than a drum weighs. */
    private static final int HEAVY_VAN = 1;

    private static final LocalTime PACKED = LocalTime.of(6, 45);
    private static final int BAG_MINUTES = 5 * 60;

    private static final double OVER_KG = 12;

    /** Practical salinity of the tank whose refractometer shows 1.025, and the highest that it should have. */
    private static final BigDecimal REALLY = new BigDecimal("43.3");

    private static final double TARGET = 35;

    private final Toolbox toolbox;
    private final Staff staff;
    private final Contracts contracts;
    private final KeptApart keptApart;
    private final Shelf shelf;
    private final WaterSystems systems;
    private final ReadingService readings;
    private final DueVisits dueVisits;
    private final CorrectivePlans plans;
    private final PlanMaking making;
    private final PlanFollowing following;
    private final RoundService rounds;
    private final ArrivalPromises promises;
    private final AnimalDeliveries animals;
    private final WorkProposals proposals;
    private final StopDemand demand;
    private final Fleet fleet;
    private final Holidays holidays;
    private final DemoClock clock;

    Today(
            Toolbox toolbox,
            Staff staff,
            Contracts contracts,
            KeptApart keptApart,
            Shelf shelf,
            WaterSystems systems,
            ReadingService readings,
            DueVisits dueVisits,
            CorrectivePlans plans,
            PlanMaking making,
            PlanFollowing following,
            RoundService rounds,
            ArrivalPromises promises,
            AnimalDeliveries animals,
            WorkProposals proposals,
            StopDemand demand,
            Fleet fleet,
            Holidays holidays,
            DemoClock clock) {
        this.toolbox = toolbox;
        this.staff = staff;
        this.contracts = contracts;
        this.keptApart = keptApart;
        this.shelf = shelf;
        this.systems = systems;
        this.readings = readings;
        this.dueVisits = dueVisits;
        this.plans = plans;
        this.making = making;
        this.following = following;
        this.rounds = rounds;
        this.promises = promises;
        this.animals = animals;
        this.proposals = proposals;
        this.demand = demand;
        this.fleet = fleet;
        this.holidays = holidays;
        this.clock = clock;
    }

    /** @param now the real time, which the morning must not lie ahead of */
    void plan(DemoDays days, Instant now) {
        PlannedSystem quarantine = ofStory(Clientele.atDepot(), Story.RESTARTED_QUARANTINE);
        keptApart.keep(quarantine, id(quarantine), days);
        firstFish(atClients(Story.LATE_AMMONIA), days);
        knockedRefractometer(days);
        Instant morning = DemoDays.at(days.today(), MORNING);
        clock.standAt(morning.isAfter(now) ? now : morning);
        dueVisits.planAhead();
        staff.asOffice(() -> {
            planRounds(days.roundsDay());
            proposeWork(days.roundsDay());
            shelf.countSocks(days.thursday());
            holidays.keep(Optional.of("IE"), 0);
        });
    }

    /** Two fish for a young system, once its ammonia was gone at two visits. */
    private void firstFish(PlannedSystem system, DemoDays days) {
        LocalDate day = days.today().minusDays(system.startedDaysAgo()).plusDays(Measuring.AMMONIA_GONE + TWO_VISITS);
        clock.standAt(DemoDays.at(day, BACK_AT_DEPOT));
        contracts.animals(
                system, id(system), 1, Husbandry.animals(system.kind()).getFirst(), 2, day);
    }

    /**
     * Back at the depot the refractometer fails in the standard. Of the sample taken along the conductivity meter tells the
     * truth, from which a plan is made, and the refractometer still reads 1.025.
     */
    private void knockedRefractometer(DemoDays days) {
        LocalDate day = days.lastWorked();
        toolbox.checkKnocked(day, BACK_AT_DEPOT, staff.technicians());
        PlannedSystem system = atClients(Story.KNOCKED_REFRACTOMETER);
        Instant at = DemoDays.at(day, BACK_AT_DEPOT.plusMinutes(10));
        clock.standAt(at);
        var sampling = new Measuring.Sampling(
                system, id(system), day, at, 2, staff.technicians().of(2), Optional.empty(), true);
        var measuring = new Measuring(days, toolbox.ids());
        readings.record(measuring.withMeter(sampling, REALLY, at.minusSeconds(120)));
        staff.asOffice(() -> followARamp(id(system)));
        readings.record(measuring.one(sampling, Quantity.SALINITY, at));
    }

    /** From what the meter says to the saltiest that is wanted, by what a day may bring. */
    private void followARamp(WaterSystemId system) {
        dueVisits.planAhead();
        CorrectivePlan.Carry carry = making.usualCarry(system);
        CorrectivePlanId plan = making.propose(new NewPlan(
                CorrectivePlanId.of(Uuids.next(clock.instant())),
                system,
                Quantity.SALINITY,
                TARGET,
                Optional.empty(),
                1,
                0,
                0,
                0,
                0,
                carry.water().litres(),
                carry.mass().kilograms(),
                Optional.empty()));
        following.start(plan, plans.require(plan).version());
    }

    private void planRounds(LocalDate day) {
        Map<String, PlannedSite> planned =
                Clientele.all().stream().collect(Collectors.toMap(PlannedSite::siteCode, Function.identity()));
        List<DueStop> due = rounds.dueStops(day);
        for (int van : Technicians.VANS) {
            List<SiteId> there = due.stream()
                    .map(stop -> stop.site())
                    .filter(site -> Optional.ofNullable(planned.get(site.code()))
                            .filter(found -> found.van() == van)
                            .isPresent())
                    .map(site -> site.id())
                    .toList();
            RoundId round = rounds.plan(day, staff.van(van).id(), there);
            if (van != HEAVY_VAN) {
                takeAnimalsAlong(round, day);
            }
            promises.tellAll(round);
            setPayload(
                    staff.van(van),
                    demand.departures(List.of(rounds.require(round))).getFirst());
        }
    }

    /** What came up between agreements: one goes with a visit, for the other nobody comes in time. */
    private void proposeWork(LocalDate day) {
        List<WaterSystemId> visited = dueVisits.between(day.plusDays(2), day.plusDays(9)).stream()
                .map(visit -> visit.waterSystemId())
                .distinct()
                .toList();
        proposals.propose(new WorkProposal(
                Uuids.next(DemoDays.at(day, PACKED)),
                visited.getFirst(),
                WorkProposal.Source.REPAIR,
                "Look at the return pump that was mended: quiet, and the sump at its mark",
                day,
                day.plusDays(9),
                15,
                Optional.empty(),
                Optional.empty()));
        proposals.propose(new WorkProposal(
                Uuids.next(DemoDays.at(day, PACKED)),
                visited.getLast(),
                WorkProposal.Source.RETEST,
                "Measure nitrate again with a fresh kit",
                day,
                day.plusDays(1),
                10,
                Optional.of(Quantity.NITRATE),
                Optional.empty()));
        proposals.gather();
    }

    /** New animals go to a stop that is not ill; whoever packed them says for how long their bags are good. */
    private void takeAnimalsAlong(RoundId round, LocalDate day) {
        rounds.require(round).stops().stream()
                .filter(stop -> !stop.sick())
                .skip(1)
                .findFirst()
                .ifPresent(stop -> animals.add(
                        new AnimalDelivery(
                                Uuids.next(DemoDays.at(day, PACKED)),
                                stop.plannedVisits().getFirst(),
                                "4 ocellaris clownfish in 2 bags",
                                DemoDays.at(day, PACKED),
                                BAG_MINUTES,
                                AnimalDelivery.USUAL_ACCLIMATION_MINUTES),
                        day));
    }

    private void setPayload(VanView van, Mass load) {
        double kilograms = van.code().equals("V" + HEAVY_VAN)
                ? Math.floor(load.kilograms() - OVER_KG)
                : Math.ceil((load.kilograms() + 150) / 50) * 50;
        fleet.save(new VanView(
                van.id(),
                van.code(),
                van.name(),
                van.depotId(),
                Mass.ofKilograms(kilograms),
                van.fixedLoad(),
                van.room(),
                van.drum(),
                van.drumEmpty(),
                van.floorCm(),
                van.technician(),
                van.leavesAt(),
                van.version()));
    }

    private WaterSystemId id(PlannedSystem system) {
        return systems.findByCode(system.code()).orElseThrow().id();
    }

    private static PlannedSystem atClients(Story story) {
        return ofStory(
                Clientele.all().stream()
                        .flatMap(site -> site.systems().stream())
                        .toList(),
                story);
    }

    private static PlannedSystem ofStory(List<PlannedSystem> all, Story story) {
        return all.stream()
                .filter(system -> system.story() == story)
                .findFirst()
                .orElseThrow();
    }
}
