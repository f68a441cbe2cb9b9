package app.tankround.schedule;

import app.tankround.tanks.WaterSystemId;
import app.tankround.units.SockSize;
import java.util.Locale;

/**
 * What was planned of one thing at a visit and what was used of it, both in the same unit.
 *
 * @param task a change of water, topping up, socks or a dose
 * @param item see {@link #item(TaskView)}
 * @param planned above 0
 * @param used 0 or more
 */
public record TaskUse(WaterSystemId system, TaskKind task, String item, double planned, double used) {

    /** What tells tasks of a kind apart: the size of socks, product and unit of a dose; nothing for water. */
    public static String item(TaskView task) {
        return switch (task.kind()) {
            case SOCK_SWAP -> task.sockSize().map(SockSize::code).orElse("");
            case DOSE -> dose(task.item().orElse(""), task.unit().orElse(""));
            case WATER_CHANGE, TOP_UP, SOCKS_LEFT, TEST, MEDIA, WORK -> "";
        };
    }

    /** Names of products are compared without regard to capitals. */
    public static String dose(String product, String unit) {
        return product.strip().toLowerCase(Locale.ROOT) + ":" + unit;
    }
}
