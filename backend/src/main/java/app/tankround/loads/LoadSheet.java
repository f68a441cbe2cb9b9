package app.tankround.loads;

import app.tankround.rounds.RoundView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What goes into the van for a round, and whether the van may carry it.
 *
 * @param lines in the order of loading
 * @param depotMixes what is mixed the day before, not loaded as salt
 * @param notes what was assumed or is missing
 * @param socks per size, smallest first
 * @param legs from the depot to the first stop, and on from each
 * @param room the most that its drums take on the way, by what they hold
 * @param waters how the water for a change of a system is made up there, and how warm it may be
 * @param lighter whether something is done otherwise at its stops so that the van has less to carry
 */
public record LoadSheet(
        RoundView round,
        List<LoadLine> lines,
        List<DepotMix> depotMixes,
        List<LoadText> notes,
        List<SockCheck> socks,
        List<Leg> legs,
        Volume room,
        Map<WaterSystemId, List<LoadText>> waters,
        boolean lighter) {

    /**
     * What is in the van on one leg of its way, people and tools included.
     *
     * @param after position of the stop that it leaves, 0 for the depot
     */
    public record Leg(int after, String siteName, Mass mass) {}

    public LoadSheet {
        lines = List.copyOf(lines);
        depotMixes = List.copyOf(depotMixes);
        notes = List.copyOf(notes);
        socks = List.copyOf(socks);
        legs = List.copyOf(legs);
        waters = Map.copyOf(waters);
    }

    /** Everything that is lifted into the van today. */
    public Mass lifted() {
        return lifted(lines);
    }

    private static Mass lifted(List<LoadLine> lines) {
        return Mass.ofKilograms(
                lines.stream().mapToDouble(line -> line.mass().kilograms()).sum());
    }

    /** People, tools and hoses that ride along every day. */
    public Mass fixedLoad() {
        return round.van().fixedLoad();
    }

    /** The van's load as it leaves. */
    public Mass total() {
        return departure(round, lines);
    }

    /** The load of a round's van as it leaves with these lines. */
    static Mass departure(RoundView round, List<LoadLine> lines) {
        return lifted(lines).plus(round.van().fixedLoad());
    }

    public Mass payload() {
        return round.van().payload();
    }

    public boolean fits() {
        return total().kilograms() <= payload().kilograms();
    }

    /** By how much it is over the payload; nothing if it fits. */
    public Mass over() {
        return Mass.ofKilograms(Math.max(0, total().kilograms() - payload().kilograms()));
    }

    /** By how much it is over the payload on its heaviest leg; nothing if it fits on all. */
    public Mass overOnTheWay() {
        return Mass.ofKilograms(Math.max(
                0,
                legs.stream().mapToDouble(leg -> leg.mass().kilograms()).max().orElse(0)
                        - payload().kilograms()));
    }

    /** How much more room its drums take than the van has; nothing where nobody has said how much that is. */
    public Volume overRoom() {
        return Volume.ofLitres(round.van()
                .room()
                .map(has -> Math.max(0, room.litres() - has.litres()))
                .orElse(0.0));
    }

    /** Whether the van may carry it all the way, and has the room. */
    public boolean fitsOnTheWay() {
        return overOnTheWay().kilograms() == 0 && overRoom().litres() == 0;
    }

    /** What could still be added; nothing if it does not fit. */
    public Mass spare() {
        return Mass.ofKilograms(Math.max(0, payload().kilograms() - total().kilograms()));
    }

    /** The mass by kind, without kinds that weigh nothing. */
    public List<MassShare> shares() {
        return Arrays.stream(MassShare.Kind.values())
                .map(kind -> new MassShare(kind, massOf(kind)))
                .filter(share -> share.mass().kilograms() > 0)
                .toList();
    }

    private Mass massOf(MassShare.Kind kind) {
        return kind == MassShare.Kind.FIXED
                ? fixedLoad()
                : Mass.ofKilograms(lines.stream()
                        .filter(line -> kindOf(line.group()) == kind)
                        .mapToDouble(line -> line.mass().kilograms())
                        .sum());
    }

    private static MassShare.Kind kindOf(LoadGroup group) {
        return switch (group) {
            case SALT_WATER -> MassShare.Kind.SALT_WATER;
            case RO_DI_WATER -> MassShare.Kind.RO_DI_WATER;
            case EMPTY_DRUMS,
                    FILLED_ON_THE_WAY,
                    WASTE_CONTAINERS,
                    DRY_SALT,
                    SOCKS,
                    MEDIA,
                    DOSES,
                    TEST_KITS,
                    INSTRUMENTS,
                    SINGLE_WORK,
                    TOOLS -> MassShare.Kind.REST;
        };
    }

    /** What it takes to lift the drums into the van; empty where there are none. */
    public Optional<DrumLift> drumLift() {
        return DrumLift.of(lines, round.van().drumEmpty(), round.van().floorOrUsualCm());
    }

    /**
     * Water that is carried to a stop in drums.
     *
     * @param position of the stop, 1 for the first
     */
    public Volume waterFor(int position) {
        return Volume.ofLitres(drummed(lines.stream())
                .filter(share -> share.position() == position)
                .mapToDouble(share -> share.amount().doubleValue())
                .sum());
    }

    /** RO/DI water that is filled at a stop, for later ones. */
    public Volume refilledAt(int position) {
        return Volume.ofLitres(lines.stream()
                .flatMap(line -> line.refill().stream())
                .filter(refill -> refill.position() == position)
                .mapToDouble(refill -> refill.volume().litres())
                .sum());
    }

    /** Purified water that is carried from the depot in drums, to all stops together. */
    public Volume purifiedWater() {
        return Volume.ofLitres(drummed(lines.stream().filter(line -> line.group() == LoadGroup.RO_DI_WATER))
                .mapToDouble(share -> share.amount().doubleValue())
                .sum());
    }

    /** Who needs how much of what is carried in drums. */
    private static Stream<StopShare> drummed(Stream<LoadLine> lines) {
        // The full drums and the rest of one kind of water say the same of who needs it.
        Map<String, LoadLine> kinds = new LinkedHashMap<>();
        lines.filter(LoadLine::holdsWater)
                .forEach(line -> kinds.putIfAbsent(line.key().replaceFirst(":(full|rest:[0-9.]+)$", ""), line));
        return kinds.values().stream().flatMap(line -> line.stops().stream());
    }

    public Optional<LoadLine> line(String key) {
        return lines.stream().filter(line -> line.key().equals(key)).findFirst();
    }
}
