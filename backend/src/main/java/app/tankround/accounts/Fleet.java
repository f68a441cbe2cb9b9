package app.tankround.accounts;

import app.tankround.persistence.Uuids;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Vans, and the depots they start from. */
@Service
public class Fleet {

    private static final double HEAVIEST_KG = 20_000;
    private static final double LARGEST_DRUM_L = 1_000;
    private static final double LARGEST_ROOM_L = 20_000;
    private static final double HEAVIEST_DRUM_KG = 200;

    /** The load floors of vans, from a lowered one to that of a lorry; own choice, no source. */
    public static final double LOWEST_FLOOR_CM = 20;

    public static final double HIGHEST_FLOOR_CM = 120;

    private final Vans vans;
    private final Depots depots;
    private final ChangeLog changeLog;
    private final Clock clock;

    Fleet(Vans vans, Depots depots, ChangeLog changeLog, Clock clock) {
        this.vans = vans;
        this.depots = depots;
        this.changeLog = changeLog;
        this.clock = clock;
    }

    public List<VanView> vans() {
        return vans.findAllByOrderByCodeAsc().stream().map(Van::view).toList();
    }

    public Optional<VanView> find(VanId id) {
        return vans.findById(id).map(Van::view);
    }

    public VanView require(VanId id) {
        return find(id).orElseThrow(() -> new NotFound("van", id));
    }

    public Optional<VanView> vanByCode(String code) {
        return vans.findByCode(code).map(Van::view);
    }

    public List<DepotView> depots() {
        return depots.findAllByOrderByCodeAsc().stream().map(Depot::view).toList();
    }

    public Optional<DepotView> depotByCode(String code) {
        return depots.findByCode(code).map(Depot::view);
    }

    public Optional<DepotView> find(DepotId id) {
        return depots.findById(id).map(Depot::view);
    }

    /** The depot of that code, made or renamed where needed. */
    @Transactional
    public DepotId ensureDepot(String code, String name) {
        Optional<Depot> stored = depots.findByCode(code);
        if (stored.isPresent() && stored.get().name().equals(name)) {
            return stored.get().id();
        }
        Depot wanted = stored.map(depot -> new Depot(depot.id(), code, name, depot.version()))
                .orElseGet(() -> new Depot(DepotId.of(Uuids.next(clock.instant())), code, name, 0));
        depots.save(wanted);
        changeLog.record("depot", wanted.id(), stored.isPresent() ? "changed" : "added", Map.of("name", name));
        return wanted.id();
    }

    /**
     * Adds the van, or changes the one of that id. Saving the same new van twice adds one.
     *
     * @throws FieldRefusal for a missing or taken code, a missing name, an unknown depot, or a mass, volume or height out of
     *     range
     * @throws StaleVersion if somebody else changed the van meanwhile
     */
    @Transactional
    public void save(VanView van) {
        String code = required("code", van.code());
        required("name", van.name());
        inRange("payload", van.payload(), 1, HEAVIEST_KG);
        inRange("fixedLoad", van.fixedLoad(), 0, HEAVIEST_KG);
        inRange("drumEmpty", van.drumEmpty(), 0, HEAVIEST_DRUM_KG);
        van.room()
                .filter(room -> !(room.litres() >= 1 && room.litres() <= LARGEST_ROOM_L))
                .ifPresent(room -> {
                    throw new FieldRefusal("room", "accounts.room-range", room.litres(), 1, LARGEST_ROOM_L);
                });
        Volume drum = van.drum();
        if (!(drum.litres() >= 1 && drum.litres() <= LARGEST_DRUM_L)) {
            throw new FieldRefusal("drum", "accounts.drum-range", drum.litres(), 1, LARGEST_DRUM_L);
        }
        van.floorCm()
                .filter(floor -> !(floor >= LOWEST_FLOOR_CM && floor <= HIGHEST_FLOOR_CM))
                .ifPresent(floor -> {
                    throw new FieldRefusal("floor", "accounts.floor-range", floor, LOWEST_FLOOR_CM, HIGHEST_FLOOR_CM);
                });
        if (depots.findById(van.depotId()).isEmpty()) {
            throw new FieldRefusal(
                    "depot", "accounts.depot-unknown", van.depotId().toString());
        }
        vans.findByCode(code).filter(other -> !other.id().equals(van.id())).ifPresent(other -> {
            throw new FieldRefusal("code", "accounts.van-code-taken", code);
        });
        Optional<Van> stored = vans.findById(van.id());
        if (stored.isPresent()) {
            if (stored.get().view().equals(van)) {
                return;
            }
            if (stored.get().version() != van.version()) {
                throw new StaleVersion("/vans", stored.get().view(), van);
            }
        }
        vans.save(Van.of(van));
        changeLog.record(
                "van",
                van.id(),
                stored.isPresent() ? "changed" : "added",
                Map.of("code", code, "payloadKg", van.payload().kilograms()));
    }

    private static String required(String field, String value) {
        String stripped = value.strip();
        if (stripped.isEmpty() || stripped.length() > 100) {
            throw new FieldRefusal(field, "accounts.name-length", stripped, 1, 100);
        }
        return stripped;
    }

    private static void inRange(String field, Mass mass, double low, double high) {
        if (!(mass.kilograms() >= low && mass.kilograms() <= high)) {
            throw new FieldRefusal(field, "accounts.mass-range", mass.kilograms(), low, high);
        }
    }
}
