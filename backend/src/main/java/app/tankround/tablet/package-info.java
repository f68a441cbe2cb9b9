/** The day's bundle, the inbox for entries and photos, and the visit page over them. */
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
            "plans",
            "stock",
            "rounds",
            "loads",
            "visits"
        })
@NullMarked
package app.tankround.tablet;

import org.jspecify.annotations.NullMarked;
