package app.tankround.tanks;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * What animals that have just come are offered, and when it is time to worry that they do not eat. All of it common practice,
 * no source: a sick or thin animal is a veterinarian's matter long before.
 */
public final class FirstFood {

    /** They are left in the dark first: own choice within common practice. */
    public static final Duration SETTLING = Duration.ofHours(4);

    /** What is offered, liveliest first. */
    public enum Offer {
        LIVE_COPEPODS,
        LIVE_BRINE,
        LIVE_SHRIMP,
        LIVE_WORMS,
        FROZEN_MYSIS,
        FROZEN_BRINE,
        FISH_FLESH,
        SEAWEED,
        FLAKES_OR_PELLETS
    }

    /** How animals feed, as far as their names tell. */
    public enum Feeder {
        /** Picks small moving prey all day and starves soonest. */
        PICKER(
                2,
                Set.of("seahorse", "pipefish", "mandarin", "dragonet", "anthias", "chromis", "leaf fish", "filefish"),
                Offer.LIVE_COPEPODS,
                Offer.LIVE_BRINE,
                Offer.FROZEN_MYSIS),
        GRAZER(
                3,
                Set.of("tang", "surgeonfish", "rabbitfish", "foxface", "blenny", "pleco"),
                Offer.SEAWEED,
                Offer.LIVE_BRINE,
                Offer.FROZEN_MYSIS),
        /** Eats seldom and much. */
        HUNTER(
                7,
                Set.of("lionfish", "frogfish", "moray", "eel", "grouper", "scorpionfish", "stonefish", "shark", "ray"),
                Offer.LIVE_SHRIMP,
                Offer.FISH_FLESH),
        COMMON(
                3,
                Set.of(),
                Offer.LIVE_BRINE,
                Offer.LIVE_WORMS,
                Offer.FROZEN_MYSIS,
                Offer.FROZEN_BRINE,
                Offer.FLAKES_OR_PELLETS),
        /** Lives on light, or on what floats by. */
        NEEDS_NONE(
                0,
                Set.of(
                        "coral",
                        "zoanthid",
                        "mushroom",
                        "polyp",
                        "gorgonian",
                        "clam",
                        "sponge",
                        "snail",
                        "hermit crab",
                        "anemone",
                        "tunicate"));

        private final int worryDays;
        private final Set<String> words;
        private final List<Offer> offers;

        Feeder(int worryDays, Set<String> words, Offer... offers) {
            this.worryDays = worryDays;
            this.words = words;
            this.offers = List.of(offers);
        }

        /** Days without food after which somebody is to be asked. */
        public int worryDays() {
            return worryDays;
        }

        public List<Offer> offers() {
            return offers;
        }

        /** By the name of the animals; common where it tells nothing. */
        public static Feeder of(String name) {
            List<String> told = Arrays.asList(name.toLowerCase(Locale.ROOT).split("[^a-z]+"));
            String whole = " " + String.join(" ", told) + " ";
            return Stream.of(NEEDS_NONE, PICKER, GRAZER, HUNTER)
                    .filter(feeder -> feeder.words.stream()
                            .anyMatch(word -> whole.contains(" " + word + " ") || whole.contains(" " + word + "s ")))
                    .findFirst()
                    .orElse(COMMON);
        }
    }

    public enum Outcome {
        EATEN,
        /** Taken and spat out: no meal. */
        TASTED,
        REFUSED
    }

    /** @param outcome what became of it within the time that somebody looked on */
    public record Offered(Instant at, Outcome outcome) {}

    public enum State {
        /** Left alone and dark still. */
        SETTLING,
        /** Nothing was offered yet, or not today. */
        OFFER,
        /** Refused so far, within what is usual. */
        WAITING,
        EATS,
        /** Longer than is usual. */
        WORRY,
        /** Twice as long: animals die of it. */
        URGENT
    }

    /** @param hours since it came, or since it ate last */
    public record Standing(State state, long hours) {

        public boolean worries() {
            return state == State.WORRY || state == State.URGENT;
        }
    }

    private FirstFood() {}

    /** @param offers in any order */
    public static Standing judge(Feeder feeder, Instant came, List<Offered> offers, Instant now) {
        Optional<Instant> ate = offers.stream()
                .filter(offer -> offer.outcome() == Outcome.EATEN)
                .map(Offered::at)
                .max(Comparator.naturalOrder());
        Duration without = Duration.between(ate.orElse(came), now);
        if (without.isNegative()) {
            without = Duration.ZERO;
        }
        return new Standing(state(feeder, ate.isPresent(), offers, came, without, now), without.toHours());
    }

    private static State state(
            Feeder feeder, boolean ate, List<Offered> offers, Instant came, Duration without, Instant now) {
        if (feeder == Feeder.NEEDS_NONE) {
            return State.EATS;
        }
        Duration usual = Duration.ofDays(feeder.worryDays());
        if (without.compareTo(usual.multipliedBy(2)) >= 0) {
            return State.URGENT;
        }
        if (without.compareTo(usual) >= 0) {
            return State.WORRY;
        }
        if (ate) {
            return State.EATS;
        }
        if (now.isBefore(came.plus(SETTLING))) {
            return State.SETTLING;
        }
        boolean lately = offers.stream().anyMatch(offer -> offer.at().isAfter(now.minus(Duration.ofHours(12))));
        return lately ? State.WAITING : State.OFFER;
    }
}
