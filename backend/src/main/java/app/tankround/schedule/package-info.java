/** Agreements and the due visits that follow from them. */
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
            "instruments"
        })
@NullMarked
package app.tankround.schedule;

import org.jspecify.annotations.NullMarked;
