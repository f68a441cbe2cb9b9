package app.tankround.visits;

import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.web.FieldRefusal;
import java.util.Optional;

/** The water system that an entry names: it must stand at the visit's site. */
final class SystemOfVisit {

    private SystemOfVisit() {}

    static WaterSystemView require(EntryContext context) {
        return find(context).orElseThrow(() -> new FieldRefusal("system", "visits.missing", "system"));
    }

    static Optional<WaterSystemView> find(EntryContext context) {
        return context.body()
                .optionalId("system")
                .map(id -> context.desk()
                        .system(context.visit().siteId(), WaterSystemId.of(id))
                        .orElseThrow(() -> new FieldRefusal("system", "visits.system-elsewhere", id.toString())));
    }
}
