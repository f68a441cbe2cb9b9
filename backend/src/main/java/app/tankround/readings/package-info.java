/** Readings as written down, what is computed from them, decisions that rest on them, and what is in doubt. */
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
            "followups"
        })
@NullMarked
package app.tankround.readings;

import org.jspecify.annotations.NullMarked;
