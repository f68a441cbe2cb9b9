/** The visit as a list of entries, what they amount to, and the report for the client. */
@org.springframework.modulith.ApplicationModule(
        allowedDependencies = {
            "units",
            "persistence",
            "web",
            "network",
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
            "loads"
        })
@NullMarked
package app.tankround.visits;

import org.jspecify.annotations.NullMarked;
