package app.tankround.loads;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * In which order a load is stowed, what goes in first being deepest: heavy things on the floor and forward, those of the last
 * stop before those of the first; then bottles upright in closed tubs, acids never with hypochlorite, since together they give
 * off chlorine (the label says EUH031: contact with acids liberates toxic gas; CLP Regulation 1272/2008, annex II); then what
 * is light; electrics dry and away from water; what is for one sick system last, apart at the rear door. Common practice, no
 * source, but for the acids; what a label or safety data sheet says goes before.
 *
 * @param place where
 * @param lines in the order in which they go in
 */
record Stowage(Place place, List<LoadLine> lines) {

    /** In the order in which they are filled. */
    enum Place {
        /** On the floor at the bulkhead, over the axle. */
        FLOOR,
        /** A closed tub of its own on one side, upright. */
        ACIDS,
        /** A closed tub of its own on the other side, upright. */
        HYPOCHLORITE,
        /** Other bottles, upright in a tub. */
        BOTTLES,
        /** Light and clean, above the floor. */
        SHELF,
        /** Instruments, standards and kits. */
        DRY,
        /** Apart from everything else. */
        REAR_DOOR
    }

    private static final List<String> ACIDS =
            List.of("acid", "muriatic", "vinegar", "descal", "ph down", "ph minus", "ph-");

    private static final List<String> HYPOCHLORITES = List.of("hypochlorite", "bleach");

    Stowage {
        lines = List.copyOf(lines);
    }

    /** Of the lines of a sheet; places that stay empty are left out. Tools ride along every day and have their own. */
    static List<Stowage> of(List<LoadLine> lines) {
        Map<Place, List<LoadLine>> places = lines.stream()
                .filter(line -> line.group() != LoadGroup.TOOLS)
                .collect(Collectors.groupingBy(Stowage::place, TreeMap::new, Collectors.toList()));
        List<Stowage> order = new ArrayList<>();
        places.forEach((place, here) -> order.add(new Stowage(
                place,
                here.stream()
                        .sorted(Comparator.comparingInt(Stowage::firstNeeded)
                                .reversed()
                                .thenComparing(line -> line.mass().kilograms(), Comparator.reverseOrder()))
                        .toList())));
        return order;
    }

    /** The stop at which it is needed first, be it to fill it; what every stop needs is needed at the first. */
    private static int firstNeeded(LoadLine line) {
        return line.refill()
                .map(Refill::position)
                .orElseGet(() -> line.stops().stream()
                        .mapToInt(StopShare::position)
                        .min()
                        .orElse(1));
    }

    private static Place place(LoadLine line) {
        if (line.apart()) {
            return Place.REAR_DOOR;
        }
        return switch (line.group()) {
            case SALT_WATER, RO_DI_WATER, EMPTY_DRUMS, FILLED_ON_THE_WAY, DRY_SALT -> Place.FLOOR;
            case WASTE_CONTAINERS -> Place.REAR_DOOR;
            case DOSES -> bottle(line.key().toLowerCase(Locale.ROOT));
            case SOCKS, MEDIA, SINGLE_WORK -> Place.SHELF;
            case TEST_KITS, INSTRUMENTS, TOOLS -> Place.DRY;
        };
    }

    private static Place bottle(String name) {
        if (HYPOCHLORITES.stream().anyMatch(name::contains)) {
            return Place.HYPOCHLORITE;
        }
        return ACIDS.stream().anyMatch(name::contains) ? Place.ACIDS : Place.BOTTLES;
    }
}
