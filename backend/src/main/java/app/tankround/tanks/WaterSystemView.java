package app.tankround.tanks;

import app.tankround.clients.SiteId;
import app.tankround.units.Volume;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.Optional;

/**
 * A water system as other modules and pages see it.
 *
 * @param classSince since when it has been in its infection class; a quarantine counts its days from here
 * @param evaporationPerDay water lost to the air in a day
 * @param hasAcrylic whether any of its tanks is acrylic: no blade or pad that scratches it
 * @param eaten whether any of its animals will be eaten: nothing goes in that must not reach a plate
 */
public record WaterSystemView(
        WaterSystemId id,
        String code,
        SiteId siteId,
        String name,
        SystemKind kind,
        InfectionClass infectionClass,
        LocalDate classSince,
        Volume netVolume,
        VolumeBasis basis,
        Optional<Volume> displayVolume,
        Optional<Volume> displacement,
        Optional<Volume> sumpVolume,
        Optional<LocalDate> startedOn,
        Volume evaporationPerDay,
        Optional<String> notes,
        boolean hasAcrylic,
        boolean eaten,
        boolean active,
        int version) {

    /** The order in which the systems of a stop are looked after: hands and tools go from clean water to sick. */
    public static final Comparator<WaterSystemView> CLEANEST_FIRST =
            Comparator.comparing(WaterSystemView::infectionClass);

    /** Which day in the infection class {@code day} is; the first day is day 1. */
    public long dayInClass(LocalDate day) {
        return ChronoUnit.DAYS.between(classSince, day) + 1;
    }
}
