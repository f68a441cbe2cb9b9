package app.tankround.testing;

import app.tankround.plans.Treatment;
import app.tankround.tanks.WaterSystemId;
import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/** Treatments that an invented veterinarian has ordered. */
public final class TestTreatments {

    private TestTreatments() {}

    /** Copper sulfate, 1.5 mg in a millilitre, to 0.15 to 0.20 mg/L. */
    public static Treatment copper(
            WaterSystemId system,
            LocalDate from,
            Treatment.CopperForm form,
            Treatment.KitShows kit,
            Map<Treatment.Thing, Treatment.State> things) {
        return new Treatment(
                UUID.randomUUID(),
                system,
                "Copper sulfate",
                "Dr Invented",
                1.5,
                "mL",
                0.15,
                0.20,
                Optional.of(new Treatment.Copper(form, kit)),
                from,
                Optional.empty(),
                things,
                0);
    }
}
