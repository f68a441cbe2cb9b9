package app.tankround.plans.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A treatment as typed.
 *
 * @param things what must be off while it is given; a box that is not ticked is not sent
 */
record TreatmentForm(
        String id,
        @Nullable String product,
        @Nullable String orderedBy,
        @Nullable String strength,
        @Nullable String unit,
        @Nullable String low,
        @Nullable String high,
        @Nullable String copperForm,
        @Nullable String kitShows,
        @Nullable String startedOn,
        @Nullable List<String> things) {

    public List<String> off() {
        return things == null ? List.of() : List.copyOf(things);
    }
}
