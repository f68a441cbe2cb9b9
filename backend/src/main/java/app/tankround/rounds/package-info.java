/** A van's day: which stops, in what order, at what time. */
@org.springframework.modulith.ApplicationModule(
        allowedDependencies = {
            "units",
            "persistence",
            "web",
            "accounts",
            "followups",
            "clients",
            "chemistry",
            "chemistry :: statistics",
            "tanks",
            "instruments",
            "readings",
            "purification",
            "schedule"
        })
@NullMarked
package app.tankround.rounds;

import org.jspecify.annotations.NullMarked;
