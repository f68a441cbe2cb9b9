package app.tankround.tanks;

import java.util.List;

/**
 * The usual targets of a kind of system.
 *
 * @param targets in the order of {@link app.tankround.units.Quantity}
 * @param changed whether the business has set them itself; else they are common practice, no source
 */
public record TargetPresetView(SystemKind kind, int version, List<TargetView> targets, boolean changed) {

    public TargetPresetView {
        targets = List.copyOf(targets);
    }
}
