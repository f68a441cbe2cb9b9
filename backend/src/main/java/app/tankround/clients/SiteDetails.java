package app.tankround.clients;

import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;

/**
 * What is written down about a site.
 *
 * @param code short and unique among sites, 1 to 40 characters
 * @param clientId whose it is; none for the business's own depot, whose code and name are then the site's
 * @param latitude degrees north, -90 to 90 (WGS 84); null where nobody knows yet, never of the business's own depot
 * @param longitude degrees east, -180 to 180 (WGS 84); null together with {@code latitude}
 * @param attendedFrom from when on somebody is there, in the site's own time, to the minute
 * @param attendedUntil until when, later than {@code attendedFrom}; both or neither are given
 * @param ownTap tap water may be drawn there
 * @param ownDrain waste water may be let out there
 * @param ownRoDi the site makes its own purified water
 * @param mixingBarrel salt water can be mixed there
 * @param refillLitres L of its own purified water that the van may take along at a visit, above 0, to
 *     {@value #MOST_REFILL_LITRES}; null where the client allows none, always of the business's own depot
 */
public record SiteDetails(
        String code,
        @Nullable ClientId clientId,
        String name,
        @Nullable String street,
        @Nullable String postalCode,
        @Nullable String locality,
        @Nullable Double latitude,
        @Nullable Double longitude,
        @Nullable String accessNotes,
        @Nullable LocalTime attendedFrom,
        @Nullable LocalTime attendedUntil,
        boolean ownTap,
        boolean ownDrain,
        boolean ownRoDi,
        boolean mixingBarrel,
        @Nullable Double refillLitres) {

    /** More than a van carries; own choice, no source. */
    public static final int MOST_REFILL_LITRES = 1000;

    /** @throws FieldRefusal naming the field, the refused value and what is accepted */
    public SiteDetails {
        code = TextInput.required("code", code, 40);
        name = TextInput.required("name", name, 200);
        street = TextInput.optional("street", street, 200);
        postalCode = TextInput.optional("postalCode", postalCode, 20);
        locality = TextInput.optional("locality", locality, 200);
        latitude = coordinate("latitude", latitude, 90);
        longitude = coordinate("longitude", longitude, 180);
        if (latitude == null && longitude != null) {
            throw new FieldRefusal("latitude", "clients.coordinates-half");
        }
        if (latitude != null && longitude == null) {
            throw new FieldRefusal("longitude", "clients.coordinates-half");
        }
        if (latitude == null && clientId == null) {
            throw new FieldRefusal("latitude", "clients.coordinates-of-depot");
        }
        accessNotes = TextInput.lines("accessNotes", accessNotes, 4000);
        attendedFrom = attendedFrom == null ? null : attendedFrom.truncatedTo(ChronoUnit.MINUTES);
        attendedUntil = attendedUntil == null ? null : attendedUntil.truncatedTo(ChronoUnit.MINUTES);
        if (attendedFrom == null && attendedUntil != null) {
            throw new FieldRefusal("attendedFrom", "clients.attended-from-missing", attendedUntil);
        }
        if (attendedFrom != null && attendedUntil == null) {
            throw new FieldRefusal("attendedUntil", "clients.attended-until-missing", attendedFrom);
        }
        if (attendedFrom != null && attendedUntil != null && !attendedFrom.isBefore(attendedUntil)) {
            throw new FieldRefusal("attendedUntil", "clients.attended-until-before-from", attendedUntil, attendedFrom);
        }
        if (refillLitres != null) {
            if (!(refillLitres > 0 && refillLitres <= MOST_REFILL_LITRES)) {
                throw new FieldRefusal(
                        "refillLitres", "clients.refill-out-of-range", refillLitres, MOST_REFILL_LITRES, "L");
            }
            if (!ownRoDi) {
                throw new FieldRefusal("refillLitres", "clients.refill-without-own-water");
            }
            if (clientId == null) {
                throw new FieldRefusal("refillLitres", "clients.refill-at-depot");
            }
        }
    }

    /** @throws FieldRefusal for degrees beyond the limit on either side, or for what is no number */
    static @Nullable Double coordinate(String field, @Nullable Double degrees, double limit) {
        if (degrees == null) {
            return null;
        }
        if (!(Math.abs(degrees) <= limit)) {
            throw new FieldRefusal(field, "web.number-out-of-range", degrees, -limit, limit);
        }
        // No negative zero: it would be written as -0 and read back as 0.
        return degrees + 0.0;
    }
}
