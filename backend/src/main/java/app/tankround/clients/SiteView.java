package app.tankround.clients;

import app.tankround.accounts.DepotId;
import app.tankround.units.Volume;
import java.time.LocalTime;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A site as other modules and pages see it: it belongs to a client, or is the place of one of the business's own depots.
 *
 * @param clientName the client's name, or the depot's
 * @param latitude degrees north (WGS 84)
 * @param longitude degrees east (WGS 84)
 * @param placeGuess what both are guessed from, if nobody has given them
 * @param attendedFrom from when on somebody is there, in the site's own time; given together with {@code attendedUntil}
 * @param refill how much of its own purified water the van may take along at a visit; empty where the client allows none
 */
public record SiteView(
        SiteId id,
        String code,
        Optional<ClientId> clientId,
        Optional<DepotId> depotId,
        String name,
        String clientName,
        Optional<String> street,
        Optional<String> postalCode,
        Optional<String> locality,
        double latitude,
        double longitude,
        Optional<PlaceGuess> placeGuess,
        Optional<String> accessNotes,
        Optional<LocalTime> attendedFrom,
        Optional<LocalTime> attendedUntil,
        boolean ownTap,
        boolean ownDrain,
        boolean ownRoDi,
        boolean mixingBarrel,
        Optional<Volume> refill,
        int version) {

    /** Client and site, said once where they share a name. */
    public String title() {
        return clientName.equals(name) ? name : clientName + ", " + name;
    }

    /** Street, postal code and locality on one line, as far as they are known; may be empty. */
    public String address() {
        String place = Stream.of(postalCode, locality).flatMap(Optional::stream).collect(Collectors.joining(" "));
        return Stream.concat(street.stream(), Stream.of(place))
                .filter(part -> !part.isEmpty())
                .collect(Collectors.joining(", "));
    }

    public boolean isOwnDepot() {
        return depotId.isPresent();
    }
}
