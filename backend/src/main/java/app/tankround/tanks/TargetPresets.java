package app.tankround.tanks;

import app.tankround.accounts.ChangeLog;
import app.tankround.persistence.RecordLock;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.util.Comparator;
import java.util.List;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Usual targets of each kind of system, which the business may change. A new system starts with those of then, and they
 * become its own: no change here touches a system that is there.
 */
@Service
public class TargetPresets {

    private final TargetPresetRepository presets;
    private final RecordLock lock;
    private final ChangeLog changeLog;

    TargetPresets(TargetPresetRepository presets, RecordLock lock, ChangeLog changeLog) {
        this.presets = presets;
        this.lock = lock;
        this.changeLog = changeLog;
    }

    /** What a new system of that kind starts with, in the order of {@link Quantity}. */
    public List<TargetRange> of(SystemKind kind) {
        return stored(kind).targets().targets();
    }

    public TargetPresetView require(SystemKind kind) {
        return stored(kind).view();
    }

    /** One for each kind, in the order of {@link SystemKind}. */
    public List<TargetPresetView> all() {
        return presets.findAll().stream()
                .map(TargetPreset::view)
                .sorted(Comparator.comparing(TargetPresetView::kind))
                .toList();
    }

    /**
     * Replaces the usual targets of a kind.
     *
     * @throws FieldRefusal if a quantity comes twice, or if a kind of salt water is left without a salinity, which water
     *     is mixed to where a system has no target for it; its field is then {@code SALINITY}
     * @throws StaleVersion if somebody else changed them meanwhile
     */
    @Transactional
    public void change(SystemKind kind, int version, List<TargetRange> targets) {
        Targets wanted = Targets.of(targets);
        if (kind.isSalt() && targets.stream().noneMatch(target -> target.quantity() == Quantity.SALINITY)) {
            throw new FieldRefusal(Quantity.SALINITY.name(), "tanks.preset-without-salinity");
        }
        lock.hold("target-preset " + kind);
        TargetPreset stored = stored(kind);
        if (stored.targets().equals(wanted)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion("/target-presets/" + kind, stored.targets(), wanted);
        }
        presets.save(stored.with(wanted));
        changeLog.record("target-preset", kind, "changed", stored.targets().changedTo(wanted));
    }

    private TargetPreset stored(SystemKind kind) {
        return presets.findById(kind).orElseThrow(() -> new NotFound("target-preset", kind));
    }
}
