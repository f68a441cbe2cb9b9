/** What goes into the van for a round, what it weighs, and what has been ticked off. */
@org.springframework.modulith.ApplicationModule(
        allowedDependencies = {
            "units",
            "persistence",
            "web",
            "accounts",
            "clients",
            "chemistry",
            "chemistry :: statistics",
            "tanks",
            "instruments",
            "followups",
            "readings",
            "purification",
            "schedule",
            "plans",
            "stock",
            "socks",
            "rounds"
        })
@NullMarked
package app.tankround.loads;

import org.jspecify.annotations.NullMarked;
