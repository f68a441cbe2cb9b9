package app.tankround.plans.web;

import org.jspecify.annotations.Nullable;

/** Why a treatment ends. */
record EndForm(@Nullable String why) {}
