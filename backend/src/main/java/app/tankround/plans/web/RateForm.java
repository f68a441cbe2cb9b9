package app.tankround.plans.web;

import org.jspecify.annotations.Nullable;

/** The safe rates of one quantity as typed, and why. */
record RateForm(
        int version,
        @Nullable String raising,
        @Nullable String lowering,
        @Nullable String why) {}
