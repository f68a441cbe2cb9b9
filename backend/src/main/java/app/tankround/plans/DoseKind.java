package app.tankround.plans;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What a product is given for. */
public enum DoseKind {
    SUPPLEMENT,
    /** Follows each volume of tap water, so that no interval holds for it. */
    CONDITIONER,
    MEDICATION,
    COPPER("copper", "cuso4"),
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

    /** The kind that the name of a product gives away. */
    static Optional<DoseKind> named(String product) {
        String name = product.toLowerCase(Locale.ROOT);
        return Arrays.stream(values())
                .filter(kind -> kind.words.stream().anyMatch(name::contains))
                .findFirst();
    }
}
