/** Water systems with their tanks, sample points, targets, equipment and livestock. */
@org.springframework.modulith.ApplicationModule(
        allowedDependencies = {
            "units",
            "persistence",
            "web",
            "accounts",
            "clients",
            "chemistry",
            "chemistry :: calculator"
        })
@NullMarked
package app.tankround.tanks;

import org.jspecify.annotations.NullMarked;
