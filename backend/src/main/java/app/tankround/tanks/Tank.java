package app.tankround.tanks;

import java.util.Optional;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Embedded;

record Tank(
        @Id TankId id,
        @Embedded.Empty TankDetails details,
        @Version int version) {

    TankView view() {
        return new TankView(
                id,
                details.systemId(),
                details.code(),
                details.name(),
                details.material(),
                Optional.ofNullable(details.volume()),
                version);
    }
}
