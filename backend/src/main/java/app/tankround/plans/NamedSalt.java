package app.tankround.plans;

import app.tankround.chemistry.Salt;
import app.tankround.units.Quantity;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** What the name of a product tells of its chemistry. */
final class NamedSalt {

    /** Words beside the name of a salt that say nothing of what it is. */
    static final List<String> BESIDES = List.of("powder", "pure", "food", "technical", "grade", "dry");

    private static final Pattern FILLER = Pattern.compile("\\b(" + String.join("|", BESIDES) + ")\\b");

    /**
     * Systematic and common names in English besides the one of {@link Salt}, IUPAC and general chemistry, from memory. Where
     * a name is used for more than one of them it stands for the strongest: sodium carbonate with water of crystallisation
     * counts as without, so that nobody gives too much of it.
     */
    private static final Map<String, Salt> SYNONYMS = Map.ofEntries(
            Map.entry("sodiumhydrogencarbonate", Salt.SODIUM_BICARBONATE),
            Map.entry("sodiumbicarb", Salt.SODIUM_BICARBONATE),
            Map.entry("bicarb", Salt.SODIUM_BICARBONATE),
            Map.entry("bicarbonate", Salt.SODIUM_BICARBONATE),
            Map.entry("bakingsoda", Salt.SODIUM_BICARBONATE),
            Map.entry("breadsoda", Salt.SODIUM_BICARBONATE),
            Map.entry("bicarbonateofsoda", Salt.SODIUM_BICARBONATE),
            Map.entry("soda", Salt.SODIUM_CARBONATE),
            Map.entry("sodaash", Salt.SODIUM_CARBONATE),
            Map.entry("washingsoda", Salt.SODIUM_CARBONATE),
            Map.entry("carbonateofsoda", Salt.SODIUM_CARBONATE),
            Map.entry("disodiumcarbonate", Salt.SODIUM_CARBONATE),
            Map.entry("sodiumcarbonatedecahydrate", Salt.SODIUM_CARBONATE),
            Map.entry("sodiumcarbonateanhydrous", Salt.SODIUM_CARBONATE),
            Map.entry("calciumchloride", Salt.CALCIUM_CHLORIDE_ANHYDROUS),
            Map.entry("anhydrouscalciumchloride", Salt.CALCIUM_CHLORIDE_ANHYDROUS),
            Map.entry("calciumdichloride", Salt.CALCIUM_CHLORIDE_ANHYDROUS),
            Map.entry("epsomsalt", Salt.MAGNESIUM_SULFATE_HEPTAHYDRATE),
            Map.entry("epsomsalts", Salt.MAGNESIUM_SULFATE_HEPTAHYDRATE));

    /** Parts of names of what raises pH, in letters alone: carbonates, hydroxides, borates, lime. General chemistry, from memory. */
    private static final Set<String> RAISE_PH = Set.of(
            "alkal",
            "buffer",
            "carbonate",
            "hydroxide",
            "causticsoda",
            "limewater",
            "slakedlime",
            "hydratedlime",
            "quicklime",
            "calciumoxide",
            "borax",
            "borate",
            "metasilicate",
            "naoh",
            "koh",
            "caoh2",
            "khco3",
            "k2co3",
            "phup",
            "phplus",
            "phraise",
            "raisesph",
            "raiseph",
            "increasesph");

    private NamedSalt() {}

    /** A salt by its formula or a name, however they are written. */
    static Optional<Salt> of(String product) {
        String named = letters(FILLER.matcher(ProductName.key(product)).replaceAll(" "));
        return Optional.ofNullable(SYNONYMS.get(named))
                .or(() -> Arrays.stream(Salt.values())
                        .filter(salt -> letters(salt.formula()).equals(named)
                                || letters(salt.name()).equals(named))
                        .findFirst());
    }

    /** All names of a salt, in letters and digits alone. */
    static List<String> names(Salt salt) {
        return Stream.concat(
                        Stream.of(letters(salt.formula()), letters(salt.name())),
                        SYNONYMS.entrySet().stream()
                                .filter(named -> named.getValue() == salt)
                                .map(Map.Entry::getKey))
                .sorted()
                .toList();
    }

    /** The quantity that a salt raises. */
    static Quantity raises(Salt salt) {
        return Quantity.valueOf(salt.raises().name());
    }

    /** What each salt raises, by all its names in letters and digits alone. */
    static Map<String, Quantity> raises() {
        Map<String, Quantity> raises = new TreeMap<>();
        for (Salt salt : Salt.values()) {
            names(salt).forEach(name -> raises.put(name, raises(salt)));
        }
        return raises;
    }

    /** Parts of names that tell of what raises pH, in letters and digits alone. */
    static List<String> partsThatRaisePh() {
        return RAISE_PH.stream().sorted().toList();
    }

    /** Whether the name tells that it raises pH. */
    static boolean raisesPh(String product) {
        String named = letters(ProductName.key(product));
        return of(product)
                        .filter(salt -> salt.raises() == Salt.Raises.ALKALINITY)
                        .isPresent()
                || RAISE_PH.stream().anyMatch(named::contains);
    }

    private static String letters(String text) {
        return ProductName.key(text).replaceAll("[^a-z0-9]", "").replace("sulph", "sulf");
    }
}
