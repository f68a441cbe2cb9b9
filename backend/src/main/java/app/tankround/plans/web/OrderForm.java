package app.tankround.plans.web;

import org.jspecify.annotations.Nullable;

/** A veterinarian's written order, as typed. */
record OrderForm(
        String id,
        @Nullable String product,
        @Nullable String veterinarian,
        @Nullable String writtenOn,
        @Nullable String validUntil,
        @Nullable String waitingDays) {}
