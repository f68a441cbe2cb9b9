package app.tankround.plans.web;

import org.jspecify.annotations.Nullable;

/** Why a plan is stopped. */
record StopForm(int version, @Nullable String why) {}
