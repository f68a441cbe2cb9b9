package app.tankround.visits.apart;

import org.jspecify.annotations.Nullable;

/** The display of animals that are kept apart, as typed. */
record DisplayForm(
        @Nullable String display,
        @Nullable String fallowSince,
        @Nullable String fallowDays) {}
