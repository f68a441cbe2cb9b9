package app.tankround.readings;

import java.util.List;

/**
 * Why a verdict is what it is, or what to do about it: a code with its arguments. Words are made where it is shown.
 *
 * @param args numbers as decimal text, dates as ISO text, codes
 */
public record Reason(String code, List<String> args) {

    public Reason {
        args = List.copyOf(args);
    }
}
