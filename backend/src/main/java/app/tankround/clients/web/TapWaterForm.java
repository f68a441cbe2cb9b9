package app.tankround.clients.web;

import app.tankround.clients.SiteId;
import app.tankround.clients.TapWater;
import app.tankround.clients.TapWaterView;
import app.tankround.units.MeasurementUnit;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What was measured of the tap water at a site, as the page sends it. */
record TapWaterForm(
        @Nullable String id,
        @Nullable String hardness,
        @Nullable String unit,
        @Nullable String measuredOn) {

    /** Of either unit; what is too much of one of them is refused by {@link TapWater}. */
    private static final BigDecimal MOST = BigDecimal.valueOf(10_000);

    private static final LocalDate FIRST = LocalDate.of(2000, 1, 1);

    Optional<TapWaterView> toCommand(SiteId site, LocalDate today, FormReader reader) {
        Optional<MeasurementUnit> read = reader.choice("unit", unit, MeasurementUnit.class);
        Optional<BigDecimal> number = reader.requiredNumber("hardness", hardness, BigDecimal.ZERO, MOST);
        Optional<LocalDate> on = reader.requiredDate("measuredOn", measuredOn, FIRST, today);
        return read.flatMap(in -> number.flatMap(found -> on.map(day -> new TapWaterView(site, day, found, in))));
    }
}
