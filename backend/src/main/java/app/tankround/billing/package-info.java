/** The month's finished visits by client with the agreed price. */
@org.springframework.modulith.ApplicationModule(
        allowedDependencies = {
            "units",
            "persistence",
            "web",
            "accounts",
            "clients",
            "tanks",
            "schedule",
            "rounds",
            "visits"
        })
@NullMarked
package app.tankround.billing;

import org.jspecify.annotations.NullMarked;
