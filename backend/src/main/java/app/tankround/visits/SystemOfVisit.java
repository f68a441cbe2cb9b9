package app.tankround.visits;

import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import java.util.Optional;
import org.springframework.stereotype.Component;

/** The water system that an entry names: it must stand at the visit's site. */
@Component
class SystemOfVisit {

    private final WaterSystems systems;

    SystemOfVisit(WaterSystems systems) {
        this.systems = systems;
    }

    WaterSystemView require(EntryContext context) {
        return find(context).orElseThrow(() -> new FieldRefusal("system", "visits.missing", "system"));
    }

    Optional<WaterSystemView> find(EntryContext context) {
        return context.body()
                .optionalId("system")
                .map(id -> systems.find(WaterSystemId.of(id))
                        .filter(system -> system.siteId().equals(context.visit().siteId()))
                        .orElseThrow(() -> new FieldRefusal("system", "visits.system-elsewhere", id.toString())));
    }
}
