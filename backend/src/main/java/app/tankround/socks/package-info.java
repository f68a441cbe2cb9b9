/** Filter socks: where they are, how they are washed and how worn they are, and how long the clean ones last. */
@org.springframework.modulith.ApplicationModule(
        allowedDependencies = {"units", "persistence", "web", "accounts", "clients", "tanks", "schedule", "stock"})
@NullMarked
package app.tankround.socks;

import org.jspecify.annotations.NullMarked;
