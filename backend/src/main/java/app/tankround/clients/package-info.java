/** Clients, their contacts and sites. */
@org.springframework.modulith.ApplicationModule(allowedDependencies = {"units", "persistence", "web", "accounts"})
@NullMarked
package app.tankround.clients;

import org.jspecify.annotations.NullMarked;
