package app.tankround.loads;

import java.util.List;

/**
 * What is wrong with a line although it can be loaded.
 *
 * @param without the stops that go without unless something is done about it, in the order of the round
 */
record LoadCaution(LoadText what, List<StopShare> without) {

    LoadCaution {
        without = List.copyOf(without);
    }
}
