package app.tankround.tanks.web;

import app.tankround.tanks.EquipmentDetails;
import app.tankround.tanks.EquipmentId;
import app.tankround.tanks.EquipmentView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.web.FormReader;
import app.tankround.web.VersionedForm;
import java.time.LocalDate;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** @param id made when the form is shown, so that sending it twice adds once */
record EquipmentForm(
        String id,
        int version,
        @Nullable String code,
        @Nullable String kind,
        @Nullable String name,
        @Nullable String installedOn,
        @Nullable String notes)
        implements VersionedForm<EquipmentForm> {

    static EquipmentForm blank(EquipmentId id, String code) {
        return new EquipmentForm(id.toString(), 0, code, null, null, null, null);
    }

    static EquipmentForm of(EquipmentView device) {
        return new EquipmentForm(
                device.id().toString(),
                device.version(),
                device.code(),
                device.kind(),
                device.name(),
                device.installedOn().map(LocalDate::toString).orElse(null),
                device.notes().orElse(null));
    }

    @Override
    public EquipmentForm withVersion(int newest) {
        return new EquipmentForm(id, newest, code, kind, name, installedOn, notes);
    }

    Optional<EquipmentDetails> toCommand(WaterSystemId systemId, FormReader reader, LocalDate today) {
        Optional<LocalDate> installed =
                reader.date("installedOn", installedOn, SystemForm.FIRST_DAY, today.plusYears(1));
        return reader.read(() -> new EquipmentDetails(
                        Objects.requireNonNullElse(code, ""),
                        systemId,
                        Objects.requireNonNullElse(kind, ""),
                        Objects.requireNonNullElse(name, ""),
                        installed.orElse(null),
                        notes))
                .filter(read -> reader.accepted());
    }
}
