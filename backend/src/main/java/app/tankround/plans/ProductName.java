package app.tankround.plans;

import java.text.Normalizer;
import java.util.Locale;
import java.util.regex.Pattern;

/** Tells whether two names as typed mean one product. */
final class ProductName {

    private static final Pattern UNSEEN = Pattern.compile("\\p{Cf}+");
    private static final Pattern BETWEEN_WORDS = Pattern.compile("[\\s\\p{Z}\\p{Cc}\\p{Pd}_]+");

    private ProductName() {}

    /** The name without what nobody sees in it: capitals, kinds of blanks and hyphens, and characters of no width. */
    static String key(String product) {
        String plain = Normalizer.normalize(product, Normalizer.Form.NFKC);
        String seen = UNSEEN.matcher(plain).replaceAll("");
        return BETWEEN_WORDS.matcher(seen).replaceAll(" ").strip().toLowerCase(Locale.ROOT);
    }

    static boolean same(String one, String other) {
        return key(one).equals(key(other));
    }
}
