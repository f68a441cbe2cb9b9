package app.tankround.visits.apart;

import org.jspecify.annotations.Nullable;

/** What was seen of animals that are kept apart, as typed. */
record LookForm(
        @Nullable String id,
        @Nullable String eating,
        @Nullable String breathing,
        @Nullable String signs) {}
