/** One record for whatever needs somebody. */
@org.springframework.modulith.ApplicationModule(allowedDependencies = {"units", "persistence", "web", "accounts"})
@NullMarked
package app.tankround.followups;

import org.jspecify.annotations.NullMarked;
