package app.tankround.loads;

import app.tankround.schedule.TaskKind;
import app.tankround.tanks.WaterSystemView;
import java.math.BigDecimal;

/**
 * What one system is to get of what is loaded.
 *
 * @param key of the pile that it is part of; the keys of its lines begin with it
 * @param position of the stop, 1 for the first
 * @param item see {@link app.tankround.schedule.TaskUse#item}
 * @param amount above 0; litres of water, else in the unit of the line
 */
record PlannedUse(
        String key,
        int position,
        String siteName,
        WaterSystemView system,
        String item,
        TaskKind task,
        BigDecimal amount) {}
