package app.tankround.tanks;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.tanks.FirstFood.Feeder;
import app.tankround.tanks.FirstFood.Offered;
import app.tankround.tanks.FirstFood.Outcome;
import app.tankround.tanks.FirstFood.State;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Common practice, no source, all of it. */
class FirstFoodTests {

    private static final Instant CAME = Instant.parse("2026-03-01T10:00:00Z");

    @ParameterizedTest
    @CsvSource({
        "Clownfish, COMMON",
        "Yellow seahorse, PICKER",
        "Mandarin dragonet, PICKER",
        "Blue tangs, GRAZER",
        "Spotted ray, HUNTER",
        "Moray eel, HUNTER",
        "Gray angelfish, COMMON",
        "Leather coral, NEEDS_NONE",
        "Turbo snail, NEEDS_NONE",
        "'', COMMON"
    })
    void tellsByTheNameHowAnimalsFeed(String name, Feeder feeder) {
        assertThat(Feeder.of(name)).isEqualTo(feeder);
    }

    @ParameterizedTest
    @CsvSource({
        "COMMON, 2, SETTLING",
        "COMMON, 4, OFFER",
        "COMMON, 71, OFFER",
        "COMMON, 72, WORRY",
        "COMMON, 144, URGENT",
        "PICKER, 48, WORRY",
        "PICKER, 96, URGENT",
        "HUNTER, 160, OFFER",
        "HUNTER, 168, WORRY",
        "NEEDS_NONE, 999, EATS"
    })
    void worriesByKindWhenNothingIsEaten(Feeder feeder, long hours, State state) {
        FirstFood.Standing standing = FirstFood.judge(feeder, CAME, List.of(), after(hours));
        assertThat(standing.state()).isEqualTo(state);
        assertThat(standing.hours()).isEqualTo(hours);
        assertThat(standing.worries()).isEqualTo(state == State.WORRY || state == State.URGENT);
    }

    @Test
    void countsFromTheLastMealAndTakesNoTasteForOne() {
        List<Offered> offers = List.of(
                new Offered(after(6), Outcome.REFUSED),
                new Offered(after(20), Outcome.EATEN),
                new Offered(after(60), Outcome.TASTED));
        assertThat(FirstFood.judge(Feeder.COMMON, CAME, offers, after(62)))
                .isEqualTo(new FirstFood.Standing(State.EATS, 42));
        assertThat(FirstFood.judge(Feeder.COMMON, CAME, offers, after(92)))
                .as("three days after its last meal")
                .isEqualTo(new FirstFood.Standing(State.WORRY, 72));
        assertThat(FirstFood.judge(Feeder.COMMON, CAME, offers.subList(0, 1), after(7))
                        .state())
                .isEqualTo(State.WAITING);
        assertThat(FirstFood.judge(Feeder.COMMON, CAME, offers.subList(0, 1), after(20))
                        .state())
                .as("offer again later that day")
                .isEqualTo(State.OFFER);
    }

    @Test
    void offersSomethingToWhoeverMustEatAndWhatIsAliveFirst() {
        assertThat(Arrays.stream(Feeder.values())
                        .filter(feeder -> feeder.offers().isEmpty()))
                .containsExactly(Feeder.NEEDS_NONE);
        assertThat(Feeder.PICKER.offers().getFirst()).isEqualTo(FirstFood.Offer.LIVE_COPEPODS);
        assertThat(Feeder.COMMON.offers().getFirst()).isEqualTo(FirstFood.Offer.LIVE_BRINE);
    }

    private static Instant after(long hours) {
        return CAME.plus(Duration.ofHours(hours));
    }
}
