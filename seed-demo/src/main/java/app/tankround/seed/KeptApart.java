package app.tankround.seed;

import app.tankround.persistence.Uuids;
import app.tankround.tanks.FirstFood.Offer;
import app.tankround.tanks.FirstFood.Outcome;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.visits.AnimalLook.Breathing;
import app.tankround.visits.AnimalLook.Eating;
import app.tankround.visits.AnimalsApart;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;
import org.springframework.stereotype.Component;

/** The quarantine at the depot: a first fish on the first day and another on day 25, from which the days are counted anew. */
@Component
class KeptApart {

    private static final int FISH_ADDED_ON_DAY = 25;
    private static final LocalTime PUT_IN = LocalTime.of(12, 0);
    private static final LocalTime LOOKED = LocalTime.of(18, 40);
    /** Days until each of the two eats. */
    private static final int TANG_EATS_AFTER = 1;

    private static final int BUTTERFLYFISH_EATS_AFTER = 2;

    private final Contracts contracts;
    private final WaterSystems systems;
    private final AnimalsApart apart;
    private final Staff staff;
    private final DemoClock clock;

    KeptApart(Contracts contracts, WaterSystems systems, AnimalsApart apart, Staff staff, DemoClock clock) {
        this.contracts = contracts;
        this.systems = systems;
        this.apart = apart;
        this.staff = staff;
        this.clock = clock;
    }

    void keep(PlannedSystem system, WaterSystemId id, DemoDays days) {
        LocalDate began = days.today().minusDays(system.startedDaysAgo());
        LocalDate added = began.plusDays(FISH_ADDED_ON_DAY);
        for (LocalDate day = began; day.isBefore(days.today()); day = day.plusDays(1)) {
            clock.standAt(DemoDays.at(day, PUT_IN));
            if (day.equals(began)) {
                contracts.animals(
                        system, id, 1, new Husbandry.Animal("Powder blue tang", "Acanthurus leucosternon", 1), 1, day);
            } else if (day.equals(added)) {
                contracts.animals(
                        system,
                        id,
                        2,
                        new Husbandry.Animal("Copperband butterflyfish", "Chelmon rostratus", 1),
                        1,
                        day);
            }
            clock.standAt(DemoDays.at(day, LOOKED));
            LocalDate looked = day;
            staff.as(staff.technicians().ofFirst(), () -> look(id, looked, began, added));
        }
    }

    private void look(WaterSystemId id, LocalDate day, LocalDate began, LocalDate added) {
        boolean tangEats = !day.isBefore(began.plusDays(TANG_EATS_AFTER));
        boolean otherEats = !day.isBefore(added.plusDays(BUTTERFLYFISH_EATS_AFTER));
        boolean alone = day.isBefore(added);
        for (LivestockView animals : systems.livestock(id)) {
            boolean tang = animals.commonName().contains("tang");
            offer(id, animals, tang ? Offer.SEAWEED : Offer.LIVE_BRINE, tang ? tangEats : otherEats);
        }
        apart.saw(
                Uuids.next(clock.instant()),
                id,
                tangEats && (alone || otherEats) ? Eating.ALL : tangEats ? Eating.SOME : Eating.NONE,
                Breathing.CALM,
                Optional.empty());
    }

    private void offer(WaterSystemId id, LivestockView animals, Offer offer, boolean eats) {
        apart.offered(Uuids.next(clock.instant()), id, animals.id(), offer, eats ? Outcome.EATEN : Outcome.REFUSED);
    }
}
