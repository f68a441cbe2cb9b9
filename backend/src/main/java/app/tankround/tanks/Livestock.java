package app.tankround.tanks;

import java.util.Optional;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Embedded;

record Livestock(
        @Id LivestockId id,
        @Embedded.Empty LivestockDetails details,
        @Version int version) {

    LivestockView view() {
        return new LivestockView(
                id,
                details.systemId(),
                details.code(),
                details.commonName(),
                Optional.ofNullable(details.scientificName()),
                details.quantity(),
                Optional.ofNullable(details.addedOn()),
                details.willBeEaten(),
                version);
    }
}
