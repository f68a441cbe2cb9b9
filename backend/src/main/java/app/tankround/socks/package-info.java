/** Filter socks: how long the clean ones last, and how they are washed. */
@org.springframework.modulith.ApplicationModule(
        allowedDependencies = {"units", "persistence", "web", "accounts", "clients", "tanks", "schedule", "stock"})
@NullMarked
package app.tankround.socks;

import org.jspecify.annotations.NullMarked;
