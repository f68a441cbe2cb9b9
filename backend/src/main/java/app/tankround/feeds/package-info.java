/** Calendars of technicians, vans and clients that a calendar program reads. */
@org.springframework.modulith.ApplicationModule(
        allowedDependencies = {
            "units",
            "persistence",
            "web",
            "network",
            "accounts",
            "clients",
            "tanks",
            "schedule",
            "rounds"
        })
@NullMarked
package app.tankround.feeds;

import org.jspecify.annotations.NullMarked;
