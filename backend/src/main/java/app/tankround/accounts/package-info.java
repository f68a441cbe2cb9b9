/** The business, its people and their rights, sign-in, who changed what, depots and vans, and the CSV exchange that every module joins. */
@org.springframework.modulith.ApplicationModule(
        allowedDependencies = {"units", "persistence", "web", "network", "chemistry"})
@NullMarked
package app.tankround.accounts;

import org.jspecify.annotations.NullMarked;
