package app.tankround.visits.apart;

import org.jspecify.annotations.Nullable;

/** What animals were offered, as typed. */
record OfferForm(
        @Nullable String id,
        @Nullable String animals,
        @Nullable String offer,
        @Nullable String outcome) {}
