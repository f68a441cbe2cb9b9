/**
 * Corrective plans that bring a system's water to its target by safe steps at the coming visits, what to do in an
 * emergency, and the guard over doses.
 */
@org.springframework.modulith.ApplicationModule(
        allowedDependencies = {
            "units",
            "persistence",
            "web",
            "accounts",
            "clients",
            "chemistry",
            "tanks",
            "instruments",
            "followups",
            "readings",
            "schedule"
        })
@NullMarked
package app.tankround.plans;

import org.jspecify.annotations.NullMarked;
