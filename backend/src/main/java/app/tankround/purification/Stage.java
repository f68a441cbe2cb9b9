package app.tankround.purification;

import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Embedded;
import org.springframework.data.relational.core.mapping.Table;

@Table("purification_stage")
record Stage(
        @Id StageId id,
        @Embedded.Empty StageDetails details,
        @Version int version) {

    StageView view() {
        return new StageView(id, details, version);
    }
}
