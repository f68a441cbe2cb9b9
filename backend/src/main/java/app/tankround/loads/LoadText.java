package app.tankround.loads;

import java.util.List;

/**
 * A sentence or name as a code with arguments; words are made where it is shown.
 *
 * @param code a key of the message file
 * @param args quantities of {@code units}, numbers, dates, {@link app.tankround.units.Quantity}, names, and other such texts
 */
public record LoadText(String code, List<Object> args) {

    public LoadText {
        args = List.copyOf(args);
    }

    static LoadText of(String code, Object... args) {
        return new LoadText(code, List.of(args));
    }
}
