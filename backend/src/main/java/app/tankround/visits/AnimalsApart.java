package app.tankround.visits;

import app.tankround.accounts.CurrentPerson;
import app.tankround.tanks.FirstFood;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Writes down what is seen of animals that are kept where no visit goes, such as at the depot. */
@Service
@Transactional
public class AnimalsApart {

    private final AnimalRows rows;
    private final AnimalRecords records;
    private final AnimalMatters matters;
    private final WaterSystems systems;
    private final CurrentPerson person;
    private final Clock clock;

    AnimalsApart(
            AnimalRows rows,
            AnimalRecords records,
            AnimalMatters matters,
            WaterSystems systems,
            CurrentPerson person,
            Clock clock) {
        this.rows = rows;
        this.records = records;
        this.matters = matters;
        this.systems = systems;
        this.person = person;
        this.clock = clock;
    }

    /** A look now. Sent twice with one id it is one. */
    public void saw(
            UUID id,
            WaterSystemId systemId,
            AnimalLook.Eating eating,
            AnimalLook.Breathing breathing,
            Optional<String> signs) {
        WaterSystemView system = systems.require(systemId);
        var look = new AnimalLook(
                id,
                systemId,
                eating,
                breathing,
                signs,
                clock.instant(),
                person.require().id(),
                Optional.empty());
        if (rows.add(look)) {
            matters.seen(system, breathing, signs, "signs:" + id);
        }
    }

    /**
     * What animals were offered just now. Sent twice with one id it is one.
     *
     * @throws FieldRefusal if the animals are not in this system
     */
    public void offered(
            UUID id, WaterSystemId systemId, LivestockId animals, FirstFood.Offer offer, FirstFood.Outcome outcome) {
        WaterSystemView system = systems.require(systemId);
        LivestockView fed = systems.livestock(systemId).stream()
                .filter(each -> each.id().equals(animals))
                .findFirst()
                .orElseThrow(() -> new FieldRefusal("animals", "visits.livestock-elsewhere", animals.toString()));
        var given = new AnimalOffer(
                id,
                systemId,
                animals,
                offer,
                outcome,
                clock.instant(),
                person.require().id());
        if (rows.add(given)) {
            matters.offered(system, fed, outcome, records.standing(fed));
        }
    }
}
