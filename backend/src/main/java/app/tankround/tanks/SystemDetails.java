package app.tankround.tanks;

import app.tankround.clients.SiteId;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.springframework.data.relational.core.mapping.Column;
import org.springframework.data.relational.core.mapping.Embedded;

/**
 * What is written down about a water system.
 *
 * @param code short and unique among systems, 1 to 40 characters
 * @param startedOn when water and first livestock went in: what is expected of a young system follows from its age
 * @param evaporationPerDay water lost to the air, 0 to 100,000 litres a day
 * @param active whether it is still looked after; an inactive system stays with its history
 */
public record SystemDetails(
        String code,
        SiteId siteId,
        String name,
        SystemKind kind,
        @Embedded.Empty NetVolume volume,
        @Nullable LocalDate startedOn,
        @Column("evaporation_l_day") Volume evaporationPerDay,
        @Nullable String notes,
        boolean active) {

    /** Litres a day. */
    public static final double MOST_EVAPORATION_LITRES = 100_000;

    /** @throws FieldRefusal naming the field, the refused value and what is accepted */
    public SystemDetails {
        code = TextInput.required("code", code, 40);
        name = TextInput.required("name", name, 200);
        startedOn = Days.optional("startedOn", startedOn);
        if (evaporationPerDay.litres() > MOST_EVAPORATION_LITRES) {
            throw new FieldRefusal(
                    "evaporation", "web.number-out-of-range", evaporationPerDay.litres(), 0, MOST_EVAPORATION_LITRES);
        }
        notes = TextInput.lines("notes", notes, 10_000);
    }
}
