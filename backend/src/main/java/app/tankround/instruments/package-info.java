/** The register of instruments and standards, and every check of one against the other. */
@org.springframework.modulith.ApplicationModule(
        allowedDependencies = {"units", "persistence", "web", "accounts", "chemistry"})
@NullMarked
package app.tankround.instruments;

import org.jspecify.annotations.NullMarked;
