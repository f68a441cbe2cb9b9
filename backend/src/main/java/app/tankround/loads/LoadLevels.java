package app.tankround.loads;

import app.tankround.schedule.LearnedUse;
import app.tankround.schedule.TaskUses;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemView;
import java.util.function.BiFunction;
import java.util.function.Predicate;

/**
 * What decides how much more than planned is loaded.
 *
 * @param learned what earlier visits used of a task at a system
 * @param safety whether animals or people may be harmed without a product of that name
 */
record LoadLevels(
        LoadTerms terms, BiFunction<WaterSystemView, TaskView, LearnedUse> learned, Predicate<String> safety) {

    /** Nothing is learned: what is planned is loaded. */
    static final LoadLevels PLANNED = of(LoadTerms.usual(), TaskUses.Learned.NOTHING, product -> false);

    static LoadLevels of(LoadTerms terms, TaskUses.Learned learned, Predicate<String> safety) {
        return new LoadLevels(terms, (system, task) -> learned.of(system.id(), system.kind(), task), safety);
    }

    LearnedUse learned(SystemWork work, TaskView task) {
        return learned.apply(work.system(), task);
    }
}
