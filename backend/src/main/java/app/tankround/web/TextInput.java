package app.tankround.web;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Reads text as typed into a field, so that what is stored is what an export writes and an import reads again: outer
 * blanks are dropped, every line end becomes {@code \n}, and a blank optional text is no text at all.
 */
public final class TextInput {

    private static final int LEAST_WORDS = 2;
    private static final int LEAST_LETTERS = 6;
    private static final int SHOWN_OF_REFUSED = 60;

    private TextInput() {}

    /**
     * One line that must be there.
     *
     * @param longest most characters accepted
     * @throws FieldRefusal with code {@code web.text-blank} (most characters), {@code web.text-too-long} (text, its characters,
     *     most characters) or {@code web.text-control} (text, number of the character)
     */
    public static String required(String field, @Nullable String text, int longest) {
        String read = optional(field, text, longest);
        if (read == null) {
            throw new FieldRefusal(field, "web.text-blank", longest);
        }
        return read;
    }

    /**
     * A text that tells why in words: two of them at least, and no mere signs.
     *
     * @throws FieldRefusal with code {@code web.reason-without-words} (text) if it does not
     */
    public static String inWords(String field, String text) {
        String[] words = text.strip().split("[^\\p{L}\\p{N}]+");
        boolean told = Arrays.stream(words).filter(word -> !word.isEmpty()).count() >= LEAST_WORDS
                && text.chars().filter(Character::isLetter).count() >= LEAST_LETTERS;
        if (!told) {
            throw new FieldRefusal(field, "web.reason-without-words", text);
        }
        return text;
    }

    /** One line that may be missing. */
    public static @Nullable String optional(String field, @Nullable String text, int longest) {
        String read = lines(field, text, longest);
        if (read != null && read.indexOf('\n') >= 0) {
            throw new FieldRefusal(field, "web.text-one-line", shortened(read));
        }
        return read;
    }

    /** Several lines that may be missing. */
    public static @Nullable String lines(String field, @Nullable String text, int longest) {
        if (text == null || text.isBlank()) {
            return null;
        }
        String read = text.replace("\r\n", "\n").replace('\r', '\n').strip();
        if (read.length() > longest) {
            throw new FieldRefusal(field, "web.text-too-long", shortened(read), read.length(), longest);
        }
        for (int i = 0; i < read.length(); i++) {
            char c = read.charAt(i);
            if (Character.isISOControl(c) && c != '\n' && c != '\t') {
                throw new FieldRefusal(field, "web.text-control", shortened(read), i + 1);
            }
        }
        return read;
    }

    private static String shortened(String text) {
        String firstLine = text.lines().findFirst().orElse("");
        return firstLine.length() <= SHOWN_OF_REFUSED ? firstLine : firstLine.substring(0, SHOWN_OF_REFUSED) + "…";
    }
}
