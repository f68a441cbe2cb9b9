package app.tankround.tanks.web;

import app.tankround.tanks.WaterSystemView;
import app.tankround.web.VersionedForm;
import org.jspecify.annotations.Nullable;

/** An infection class as typed. */
record ClassForm(
        int version,
        @Nullable String infectionClass,
        @Nullable String classSince,
        @Nullable String note) implements VersionedForm<ClassForm> {

    static ClassForm of(WaterSystemView system, String day) {
        return new ClassForm(system.version(), system.infectionClass().name(), day, null);
    }

    @Override
    public ClassForm withVersion(int newest) {
        return new ClassForm(newest, infectionClass, classSince, note);
    }
}
