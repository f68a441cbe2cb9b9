package app.tankround.loads;

import app.tankround.clients.SiteId;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Where drums or a container that go along empty are filled on the way, for the stops after that.
 *
 * @param position of the stop at which they are filled
 * @param siteName of that stop
 * @param volume with which all of the line are filled together, above 0
 * @param water its mass
 */
public record Refill(int position, String siteName, Volume volume, Mass water) {

    private static final String DRUMS_KEY = "refill-drum";
    private static final String PURPOSE = "refill:";
    private static final Pattern KEY = Pattern.compile("(?:" + DRUMS_KEY + "|" + LoadRules.CONTAINER_KEY
            + ".+:refill):([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})");

    /** The key of the drums that are filled at a site: whoever loads them has to know for where. */
    static String drumsKey(SiteId site) {
        return DRUMS_KEY + ":" + site;
    }

    /** What a container's key says that is filled at a site. */
    static String purpose(SiteId site) {
        return PURPOSE + site;
    }

    /** The site at which the line with this key is filled; empty for every other line. */
    static Optional<SiteId> siteOf(String key) {
        Matcher read = KEY.matcher(key);
        return read.matches() ? Optional.of(SiteId.parse(read.group(1))) : Optional.empty();
    }
}
