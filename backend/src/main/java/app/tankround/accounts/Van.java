package app.tankround.accounts;

import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.time.LocalTime;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Column;

/** A van and what it may carry. */
record Van(
        @Id VanId id,
        String code,
        String name,
        DepotId depotId,
        @Column("payload_kg") Mass payload,
        @Column("fixed_load_kg") Mass fixedLoad,
        @Column("room_l") @Nullable Volume room,
        @Column("drum_l") Volume drum,
        @Column("drum_empty_kg") Mass drumEmpty,
        @Nullable Double floorCm,
        @Nullable PersonId technicianId,
        LocalTime leavesAt,
        @Version int version) {

    static Van of(VanView view) {
        return new Van(
                view.id(),
                view.code(),
                view.name(),
                view.depotId(),
                view.payload(),
                view.fixedLoad(),
                view.room().orElse(null),
                view.drum(),
                view.drumEmpty(),
                view.floorCm().orElse(null),
                view.technician().orElse(null),
                view.leavesAt(),
                view.version());
    }

    VanView view() {
        return new VanView(
                id,
                code,
                name,
                depotId,
                payload,
                fixedLoad,
                Optional.ofNullable(room),
                drum,
                drumEmpty,
                Optional.ofNullable(floorCm),
                Optional.ofNullable(technicianId),
                leavesAt,
                version);
    }
}
