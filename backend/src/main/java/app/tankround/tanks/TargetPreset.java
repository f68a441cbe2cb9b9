package app.tankround.tanks;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Embedded;
import org.springframework.data.relational.core.mapping.MappedCollection;
import org.springframework.data.relational.core.mapping.Table;

/** The targets that a new system of a kind starts with; a migration brings one for each kind. */
record TargetPreset(
        @Id SystemKind kind,
        @MappedCollection(idColumn = "target_preset") Set<Range> ranges,
        @Version int version) {

    /** The version that the migration writes. */
    private static final int AS_BROUGHT = 1;

    @Table("target_preset_range")
    record Range(@Embedded.Empty TargetRange target) {}

    Targets targets() {
        return Targets.of(ranges.stream().map(Range::target).toList());
    }

    TargetPreset with(Targets changed) {
        return new TargetPreset(kind, changed.targets().stream().map(Range::new).collect(Collectors.toSet()), version);
    }

    TargetPresetView view() {
        List<TargetView> views =
                targets().targets().stream().map(TargetRange::view).toList();
        return new TargetPresetView(kind, version, views, version > AS_BROUGHT);
    }
}
