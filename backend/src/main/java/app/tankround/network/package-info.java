/** How other machines reach the program: its certificate, HTTPS, and the page that makes a tablet trust it. */
@org.springframework.modulith.ApplicationModule(allowedDependencies = {"persistence", "web"})
@NullMarked
package app.tankround.network;

import org.jspecify.annotations.NullMarked;
