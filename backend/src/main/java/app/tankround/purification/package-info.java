/** The plant that makes purified water: its stages, what is measured before, within and after it, and what it needs. */
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
            "readings"
        })
@NullMarked
package app.tankround.purification;

import org.jspecify.annotations.NullMarked;
