package app.tankround.tanks.web;

import app.tankround.tanks.WaterSystemView;
import org.jspecify.annotations.Nullable;

/** An infection class as typed. */
record ClassForm(
        int version,
        @Nullable String infectionClass,
        @Nullable String classSince,
        @Nullable String note) {

    static ClassForm of(WaterSystemView system, String day) {
        return new ClassForm(system.version(), system.infectionClass().name(), day, null);
    }

    ClassForm withVersion(int newest) {
        return new ClassForm(newest, infectionClass, classSince, note);
    }
}
