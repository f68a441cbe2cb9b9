package app.tankround.tanks;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** Animals of one kind in a system. */
public record LivestockView(
        LivestockId id,
        WaterSystemId systemId,
        String code,
        String commonName,
        Optional<String> scientificName,
        int quantity,
        Optional<LocalDate> addedOn,
        boolean willBeEaten,
        int version) {

    /** Words of names whose animals copper kills or harms: invertebrates, rays and sharks. As far as names tell. */
    private static final Set<String> COPPER_KILLS = Set.of(
            "shrimp",
            "prawn",
            "crab",
            "lobster",
            "crayfish",
            "snail",
            "clam",
            "mussel",
            "oyster",
            "scallop",
            "octopus",
            "squid",
            "cuttlefish",
            "coral",
            "anemone",
            "zoanthid",
            "mushroom",
            "gorgonian",
            "jellyfish",
            "urchin",
            "starfish",
            "sea star",
            "brittle star",
            "cucumber",
            "sponge",
            "tunicate",
            "worm",
            "nudibranch",
            "shark",
            "ray",
            "stingray",
            "skate",
            "polyp");

    /** Whether there are any, and copper kills or harms them, as far as their name tells. */
    public boolean isKilledByCopper() {
        List<String> words = Arrays.asList(commonName.toLowerCase(Locale.ROOT).split("[^a-z]+"));
        String whole = " " + String.join(" ", words) + " ";
        return quantity > 0
                && COPPER_KILLS.stream()
                        .anyMatch(word -> whole.contains(" " + word + " ") || whole.contains(" " + word + "s "));
    }
}
