/** What is on the shelf, what it weighs, where it is and where it went. */
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
            "documents",
            "readings",
            "schedule",
            "plans"
        })
@NullMarked
package app.tankround.stock;

import org.jspecify.annotations.NullMarked;
