package app.tankround.clients.web;

import app.tankround.clients.ClientId;
import app.tankround.clients.SiteDetails;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteView;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.NumberText;
import app.tankround.web.ShownMeasures;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.time.LocalTime;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A site as typed.
 *
 * @param id made when the form is shown, so that sending it twice adds once
 * @param refillLitres in the unit of the business
 */
record SiteForm(
        String id,
        int version,
        @Nullable String code,
        @Nullable String name,
        @Nullable String street,
        @Nullable String postalCode,
        @Nullable String locality,
        @Nullable String latitude,
        @Nullable String longitude,
        @Nullable String accessNotes,
        @Nullable String attendedFrom,
        @Nullable String attendedUntil,
        @Nullable Boolean ownTap,
        @Nullable Boolean ownDrain,
        @Nullable Boolean ownRoDi,
        @Nullable Boolean mixingBarrel,
        @Nullable String refillLitres)
        implements VersionedForm<SiteForm> {

    /** A box that is not ticked is not sent. */
    SiteForm {
        ownTap = Boolean.TRUE.equals(ownTap);
        ownDrain = Boolean.TRUE.equals(ownDrain);
        ownRoDi = Boolean.TRUE.equals(ownRoDi);
        mixingBarrel = Boolean.TRUE.equals(mixingBarrel);
    }

    static SiteForm blank(SiteId id, String code) {
        return new SiteForm(
                id.toString(),
                0,
                code,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                false,
                false,
                false,
                false,
                null);
    }

    static SiteForm of(SiteView site, ShownMeasures measures, Locale locale) {
        return new SiteForm(
                site.id().toString(),
                site.version(),
                site.code(),
                site.name(),
                site.street().orElse(null),
                site.postalCode().orElse(null),
                site.locality().orElse(null),
                site.placeGuess().isPresent() ? null : degrees(site.latitude(), locale),
                site.placeGuess().isPresent() ? null : degrees(site.longitude(), locale),
                site.accessNotes().orElse(null),
                site.attendedFrom().map(LocalTime::toString).orElse(null),
                site.attendedUntil().map(LocalTime::toString).orElse(null),
                site.ownTap(),
                site.ownDrain(),
                site.ownRoDi(),
                site.mixingBarrel(),
                site.refill()
                        .map(refill -> NumberText.plain(measures.shownVolume(refill.litres()), locale))
                        .orElse(null));
    }

    /** As they are typed, with as many decimals as they have. */
    static String degrees(double value, Locale locale) {
        return NumberText.plain(
                new BigDecimal(BigDecimal.valueOf(value).stripTrailingZeros().toPlainString()), locale);
    }

    @Override
    public SiteForm withVersion(int newest) {
        return new SiteForm(
                id,
                newest,
                code,
                name,
                street,
                postalCode,
                locality,
                latitude,
                longitude,
                accessNotes,
                attendedFrom,
                attendedUntil,
                ownTap,
                ownDrain,
                ownRoDi,
                mixingBarrel,
                refillLitres);
    }

    private static boolean isRefused(Optional<BigDecimal> read, @Nullable String typed) {
        return read.isEmpty() && typed != null && !typed.isBlank();
    }

    /**
     * What was typed.
     *
     * @param clientId none for one of the business's own depots
     * @param stored the site that is changed
     */
    Optional<SiteDetails> toCommand(
            @Nullable ClientId clientId, FormReader reader, ShownMeasures measures, Optional<SiteView> stored) {
        LocalTime from = reader.time("attendedFrom", attendedFrom).orElse(null);
        LocalTime until = reader.time("attendedUntil", attendedUntil).orElse(null);
        boolean timesAccepted = reader.accepted();
        Optional<BigDecimal> north =
                reader.number("latitude", latitude, BigDecimal.valueOf(-90), BigDecimal.valueOf(90));
        Optional<BigDecimal> east =
                reader.number("longitude", longitude, BigDecimal.valueOf(-180), BigDecimal.valueOf(180));
        // Zero stands in for a refused coordinate, so that the other fields are looked at too.
        boolean refused = isRefused(north, latitude) || isRefused(east, longitude);
        Double refill = refill(reader, measures, stored);
        Optional<SiteDetails> details = reader.read(() -> new SiteDetails(
                Objects.requireNonNullElse(code, ""),
                clientId,
                Objects.requireNonNullElse(name, ""),
                street,
                postalCode,
                locality,
                refused ? Double.valueOf(0) : north.map(BigDecimal::doubleValue).orElse(null),
                refused ? Double.valueOf(0) : east.map(BigDecimal::doubleValue).orElse(null),
                accessNotes,
                timesAccepted ? from : null,
                timesAccepted ? until : null,
                Boolean.TRUE.equals(ownTap),
                Boolean.TRUE.equals(ownDrain),
                Boolean.TRUE.equals(ownRoDi),
                Boolean.TRUE.equals(mixingBarrel),
                refill));
        return details.filter(read -> reader.accepted());
    }

    /** In litres; a rounded number that nobody touched changes nothing, and one that is refused is left out. */
    private @Nullable Double refill(FormReader reader, ShownMeasures measures, Optional<SiteView> stored) {
        BigDecimal most = measures.shownVolume(SiteDetails.MOST_REFILL_LITRES);
        Optional<BigDecimal> typed = reader.number("refillLitres", refillLitres);
        Optional<Double> litres = typed.flatMap(number -> reader.read(() -> {
            if (number.signum() <= 0 || number.compareTo(most) > 0) {
                throw new FieldRefusal(
                        "refillLitres", "clients.refill-out-of-range", number, most, measures.volumeUnit());
            }
            return stored.flatMap(SiteView::refill)
                    .map(Volume::litres)
                    .filter(before -> measures.shownVolume(before).compareTo(number) == 0)
                    .orElseGet(() -> Math.min(measures.litres(number), SiteDetails.MOST_REFILL_LITRES));
        }));
        return litres.orElse(null);
    }
}
