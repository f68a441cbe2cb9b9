package app.tankround.plans;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** What a product is given for. */
public enum DoseKind {
    SUPPLEMENT,
    /** Raises alkalinity or pH, so that ammonia is looked at first. */
    ALKALINITY,
    /** Follows each volume of tap water, so that no interval holds for it. */
    CONDITIONER("conditioner", "dechlorinat", "thiosulfate"),
    MEDICATION(
            "medic",
            "antibiotic",
            "formalin",
            "formaldehyde",
            "malachite",
            "methylene blue",
            "praziquantel",
            "metronidazole",
            "levamisole",
            "chloroquine",
            "cycline",
            "mycin",
            "cillin",
            "floxacin",
            "florfenicol",
            "nitrofur",
            "trimethoprim",
            "acriflavin",
            "trichlorfon",
            "bendazole"),
    COPPER("copper", "cupric", "cuprous", "cuso4"),
    ALGICIDE("algicide", "algaecide"),
    OTHER;

    private final List<String> words;

    DoseKind(String... words) {
        this.words = List.of(words);
    }

    /** Whether it must not reach a plate without a veterinarian's order. */
    public boolean needsOrderWhereEaten() {
        return this == MEDICATION || this == COPPER || this == ALGICIDE;
    }

    /** Kinds that a name gives away, the most dangerous first. */
    static Stream<DoseKind> tellingNames() {
        return Stream.of(COPPER, MEDICATION, ALGICIDE, CONDITIONER);
    }

    /** Parts of names that give it away, in small letters. */
    List<String> parts() {
        return words;
    }

    /** The most dangerous kind that the name of a product gives away; a medicine with copper in it is copper. */
    static Optional<DoseKind> named(String product) {
        return tellingNames().filter(kind -> kind.names(product)).findFirst();
    }

    /**
     * The kind to hold a product to.
     *
     * @param stated by the office; where it says medicine and the name says copper, copper kills all the same
     */
    static Optional<DoseKind> of(String product, Optional<DoseKind> stated) {
        boolean treats = stated.map(kind -> kind == MEDICATION || kind == ALGICIDE || kind == OTHER)
                .orElse(true);
        return treats && COPPER.names(product) ? Optional.of(COPPER) : stated.or(() -> named(product));
    }

    private boolean names(String product) {
        String name = ProductName.key(product);
        return words.stream().anyMatch(name::contains);
    }
}
