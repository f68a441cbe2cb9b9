/** What is on the shelf, what it weighs and how many there are. */
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
package app.tankround.stock;

import org.jspecify.annotations.NullMarked;
