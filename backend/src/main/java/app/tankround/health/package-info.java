/** Which systems need somebody, worst first, and the first page. */
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
            "purification",
            "schedule",
            "socks",
            "rounds",
            "visits"
        })
@NullMarked
package app.tankround.health;

import org.jspecify.annotations.NullMarked;
