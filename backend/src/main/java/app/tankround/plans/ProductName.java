package app.tankround.plans;

import app.tankround.web.FieldRefusal;
import java.text.Normalizer;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Tells whether two names as typed mean one product. */
final class ProductName {

    private static final Pattern UNSEEN = Pattern.compile("\\p{Cf}+");
    private static final Pattern BETWEEN_WORDS = Pattern.compile("[\\s\\p{Z}\\p{Cc}\\p{Pd}_]+");
    private static final Pattern NO_LETTERS = Pattern.compile("[^\\p{L}]+");

    /** Of no alphabet, or written together in one language and like no Latin letter. */
    private static final Set<Character.UnicodeScript> NEUTRAL = EnumSet.of(
            Character.UnicodeScript.COMMON,
            Character.UnicodeScript.INHERITED,
            Character.UnicodeScript.HAN,
            Character.UnicodeScript.HIRAGANA,
            Character.UnicodeScript.KATAKANA,
            Character.UnicodeScript.HANGUL,
            Character.UnicodeScript.BOPOMOFO);

    private ProductName() {}

    /** The name without what nobody sees in it: capitals, kinds of blanks and hyphens, and characters of no width. */
    static String key(String product) {
        return BETWEEN_WORDS.matcher(seen(product)).replaceAll(" ").strip().toLowerCase(Locale.ROOT);
    }

    private static String seen(String product) {
        return UNSEEN.matcher(Normalizer.normalize(product, Normalizer.Form.NFKC))
                .replaceAll("");
    }

    static boolean same(String one, String other) {
        return key(one).equals(key(other));
    }

    /**
     * Asks a name back whose letters are of two alphabets: a letter that only looks Latin would pass every word that tells
     * what a product is. A Greek letter alone, as in the names of chemistry, is none of them.
     *
     * @throws FieldRefusal at {@code product}
     */
    static void requireOneAlphabet(String product) {
        String letters = NO_LETTERS
                .splitAsStream(seen(product))
                .filter(word -> word.length() > 1)
                .collect(Collectors.joining());
        Set<Character.UnicodeScript> scripts = letters.codePoints()
                .mapToObj(Character.UnicodeScript::of)
                .filter(script -> !NEUTRAL.contains(script))
                .collect(Collectors.toSet());
        if (scripts.size() > 1) {
            String others = letters.codePoints()
                    .filter(letter -> Character.UnicodeScript.of(letter) != Character.UnicodeScript.LATIN)
                    .mapToObj(Character::toString)
                    .distinct()
                    .collect(Collectors.joining(" "));
            throw new FieldRefusal("product", "plans.dose.two-alphabets", product.strip(), others);
        }
    }
}
