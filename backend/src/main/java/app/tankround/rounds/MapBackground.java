package app.tankround.rounds;

import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.net.URI;
import java.net.URISyntaxException;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * From where the pictures behind a map come: squares of 256 pixels, numbered in the web's usual way (EPSG:3857) by zoom,
 * column from the west and row from the north.
 *
 * @param address with the places {@code {z}}, {@code {x}} and {@code {y}}, each once; empty for a map without a background
 * @param attribution what the owner of the pictures asks to have written on the map; there whenever an address is
 * @param mostZoom the closest that they are drawn, 1 to {@value #CLOSEST}
 * @param version 0 where nobody has said anything yet
 */
public record MapBackground(Optional<String> address, Optional<String> attribution, int mostZoom, int version) {

    /** The closest that any map is shown. */
    public static final int CLOSEST = 22;

    static final int USUAL_ZOOM = 19;

    private static final int LONGEST_ADDRESS = 500;
    private static final int LONGEST_ATTRIBUTION = 200;
    private static final List<String> PLACES = List.of("{z}", "{x}", "{y}");
    /** Nothing that could end the header in which it stands. */
    private static final Pattern HOST = Pattern.compile("[a-z0-9]([a-z0-9.-]*[a-z0-9])?");

    /**
     * Reads what somebody wrote.
     *
     * @throws FieldRefusal at {@code address} if it is no HTTPS address with the three places behind its host, at
     *     {@code attribution} if it is missing or too long, at {@code mostZoom} if it is not 1 to {@value #CLOSEST}
     */
    static MapBackground accepted(Optional<String> address, Optional<String> attribution, int mostZoom, int version) {
        if (mostZoom < 1 || mostZoom > CLOSEST) {
            throw new FieldRefusal("mostZoom", "web.number-out-of-range", mostZoom, 1, CLOSEST);
        }
        Optional<String> typed =
                address.flatMap(text -> Optional.ofNullable(TextInput.optional("address", text, LONGEST_ADDRESS)));
        if (typed.isEmpty()) {
            return new MapBackground(Optional.empty(), Optional.empty(), mostZoom, version);
        }
        requireAddress(typed.get());
        return new MapBackground(
                typed,
                Optional.of(TextInput.required("attribution", attribution.orElse(""), LONGEST_ATTRIBUTION)),
                mostZoom,
                version);
    }

    private static void requireAddress(String address) {
        for (String place : PLACES) {
            if (address.indexOf(place) < 0 || address.indexOf(place) != address.lastIndexOf(place)) {
                throw new FieldRefusal("address", "rounds.background.places", address, place);
            }
        }
        try {
            URI filled = new URI(PLACES.stream().reduce(address, (text, place) -> text.replace(place, "0")));
            if (!"https".equals(filled.getScheme())
                    || filled.getHost() == null
                    || !HOST.matcher(filled.getHost()).matches()
                    || filled.getUserInfo() != null
                    || PLACES.stream().anyMatch(place -> origin(address).contains(place))) {
                throw new FieldRefusal("address", "rounds.background.not-https", address);
            }
        } catch (URISyntaxException noAddress) {
            throw new FieldRefusal("address", "rounds.background.not-https", address);
        }
    }

    /** Scheme, host and port, as a page policy names them. */
    public Optional<String> origin() {
        return address.map(MapBackground::origin);
    }

    private static String origin(String address) {
        int path = address.indexOf('/', "https://".length());
        return path < 0 ? address : address.substring(0, path);
    }
}
