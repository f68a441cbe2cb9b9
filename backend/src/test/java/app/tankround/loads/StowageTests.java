package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.units.Mass;
import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Common practice, no source, but that acids and hypochlorite stay apart (EUH031, CLP Regulation 1272/2008, annex II). */
class StowageTests {

    @Test
    void lastStopIsDeepestAndOfOneStopTheHeavierThing() {
        assertThat(keys(
                        Stowage.Place.FLOOR,
                        line("salt-water:35.0:full", LoadGroup.SALT_WATER, 80, 1, 4),
                        line("ro-di:full", LoadGroup.RO_DI_WATER, 25, 4),
                        line("dry-salt", LoadGroup.DRY_SALT, 6, 4),
                        line("salt-water:30.0:full", LoadGroup.SALT_WATER, 27, 3)))
                .containsExactly("ro-di:full", "dry-salt", "salt-water:30.0:full", "salt-water:35.0:full");
    }

    @Test
    void floorIsFilledFirstAndTheRearDoorLast() {
        List<Stowage> order = Stowage.of(List.of(
                apart("salt-water:35.0:id:full"),
                line("sock:100", LoadGroup.SOCKS, 1, 1),
                line("instrument:R-01", LoadGroup.INSTRUMENTS, 1),
                line("tool:pad", LoadGroup.TOOLS, 0, 1),
                line("ro-di:full", LoadGroup.RO_DI_WATER, 25, 1)));
        assertThat(order)
                .extracting(Stowage::place)
                .containsExactly(Stowage.Place.FLOOR, Stowage.Place.SHELF, Stowage.Place.DRY, Stowage.Place.REAR_DOOR);
    }

    @ParameterizedTest
    @CsvSource({
        "Hydrochloric acid 10 %, ACIDS",
        "Citric Acid, ACIDS",
        "Vinegar, ACIDS",
        "pH down, ACIDS",
        "Sodium hypochlorite, HYPOCHLORITE",
        "Household Bleach, HYPOCHLORITE",
        "Dechlorinator, BOTTLES",
        "Trace elements, BOTTLES"
    })
    void acidsAndHypochloriteNeverShareATub(String product, Stowage.Place place) {
        LoadLine line = line("dose:" + product + ":mL", LoadGroup.DOSES, 1, 1);
        assertThat(Stowage.of(List.of(line))).extracting(Stowage::place).containsExactly(place);
    }

    private static List<String> keys(Stowage.Place place, LoadLine... lines) {
        return Stowage.of(Arrays.asList(lines)).stream()
                .filter(stowage -> stowage.place() == place)
                .flatMap(stowage -> stowage.lines().stream())
                .map(LoadLine::key)
                .toList();
    }

    private static LoadLine apart(String key) {
        return line(key, LoadGroup.SALT_WATER, Optional.of("Sick"), 27, 5);
    }

    private static LoadLine line(String key, LoadGroup group, double kilograms, int... stops) {
        return line(key, group, Optional.empty(), kilograms, stops);
    }

    private static LoadLine line(
            String key, LoadGroup group, Optional<String> apartFor, double kilograms, int... stops) {
        return new LoadLine(
                key,
                group,
                apartFor,
                BigDecimal.ONE,
                LoadUnit.PIECE,
                LoadText.of("loads.item.product", key),
                Optional.empty(),
                Mass.ofKilograms(kilograms),
                false,
                List.of(),
                IntStream.of(stops)
                        .mapToObj(stop -> new StopShare(stop, "Site " + stop, BigDecimal.ONE))
                        .toList());
    }
}
