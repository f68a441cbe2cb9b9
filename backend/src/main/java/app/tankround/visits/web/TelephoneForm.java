package app.tankround.visits.web;

import org.jspecify.annotations.Nullable;

/** Somebody checks in by telephone, as the office writes it down. */
record TelephoneForm(
        @Nullable String person,
        @Nullable String site,
        @Nullable String minutes,
        @Nullable String because) {}
