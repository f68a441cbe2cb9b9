package app.tankround.tanks;

import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The names of a system's sample points. In tables they stand in one cell, joined by {@value #SEPARATOR}, in the order in
 * which they are drawn; so no name holds that character.
 */
final class SamplePointNames {

    static final String SEPARATOR = "|";
    private static final String FIELD = "samplePoints";
    private static final int MOST = 50;

    private SamplePointNames() {}

    static List<String> checked(List<String> names) {
        List<String> checked = new ArrayList<>();
        for (String name : names) {
            String read = TextInput.required(FIELD, name, 100);
            if (read.contains(SEPARATOR)) {
                throw new FieldRefusal(FIELD, "tanks.sample-point-separator", read);
            }
            if (checked.contains(read)) {
                throw new FieldRefusal(FIELD, "tanks.sample-point-twice", read);
            }
            checked.add(read);
        }
        if (checked.size() > MOST) {
            throw new FieldRefusal(FIELD, "tanks.sample-points-too-many", checked.size(), MOST);
        }
        return List.copyOf(checked);
    }

    /** The names of a cell or of a text with one name a line; blank ones are none. */
    static List<String> split(String text) {
        return Arrays.stream(text.split("[|\\n\\r]"))
                .map(String::strip)
                .filter(name -> !name.isEmpty())
                .toList();
    }

    static String joined(List<String> names) {
        return String.join(SEPARATOR, names);
    }
}
