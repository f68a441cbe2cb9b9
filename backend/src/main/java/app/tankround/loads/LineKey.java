package app.tankround.loads;

import app.tankround.units.Salinity;
import app.tankround.units.SockSize;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What the key of a line says, also of a line that is on no sheet any more: a kind such as {@code sock}, what names it among its
 * kind, and the unit of a product. A system that it is for alone is left out.
 *
 * @param name empty where the kind says all
 * @param unit of a medium or a dose; empty for everything else
 */
record LineKey(String kind, String name, String unit) {

    static final String SOCK = "sock";
    static final String SINGLE_WORK = "work";
    static final String MEDIA = "media";
    static final String DOSE = "dose";

    private static final Pattern SOCK_SIZE = Pattern.compile("(\\d{1,4})(?:x(\\d{1,4}))?(?:-(\\d{1,4}))?");

    private static final Pattern OWNER = Pattern.compile(":[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$");

    /** Whether a line is for one system alone. */
    static boolean isApart(String key) {
        return OWNER.matcher(key).find();
    }

    /** Whether it is water that goes into systems. */
    boolean isWater() {
        return kind.equals(LoadRules.SALT_WATER_KEY) || kind.equals(LoadRules.RO_DI_KEY);
    }

    /** Of salt water; empty of anything else. */
    Optional<Salinity> salinity() {
        return kind.equals(LoadRules.SALT_WATER_KEY)
                ? Optional.of(Salinity.ofPractical(Double.parseDouble(name)))
                : Optional.empty();
    }

    /** Of socks, by {@link SockSize#code()}; empty of anything else. */
    Optional<SockSize> sockSize() {
        Matcher parts = SOCK_SIZE.matcher(name);
        return kind.equals(SOCK) && parts.matches()
                ? Optional.of(
                        new SockSize(Integer.parseInt(parts.group(1)), number(parts.group(2)), number(parts.group(3))))
                : Optional.empty();
    }

    private static Optional<Integer> number(@Nullable String digits) {
        return Optional.ofNullable(digits).map(Integer::valueOf);
    }

    static LineKey of(String key) {
        String shared = OWNER.matcher(key).replaceFirst("");
        int first = shared.indexOf(':');
        if (first < 0) {
            return new LineKey(shared, "", "");
        }
        String kind = shared.substring(0, first);
        String rest = shared.substring(first + 1);
        boolean product = kind.equals(MEDIA) || kind.equals(DOSE);
        // The name of a product may have colons of its own.
        int end = product ? rest.lastIndexOf(':') : rest.indexOf(':');
        return end < 0
                ? new LineKey(kind, rest, "")
                : new LineKey(kind, rest.substring(0, end), product ? rest.substring(end + 1) : "");
    }
}
