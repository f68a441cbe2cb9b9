package app.tankround.tanks;

import java.util.Optional;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Embedded;

record Equipment(
        @Id EquipmentId id,
        @Embedded.Empty EquipmentDetails details,
        @Version int version) {

    EquipmentView view() {
        return new EquipmentView(
                id,
                details.systemId(),
                details.code(),
                details.kind(),
                details.name(),
                Optional.ofNullable(details.installedOn()),
                Optional.ofNullable(details.notes()),
                version);
    }
}
