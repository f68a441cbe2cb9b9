/** The embedded PostgreSQL server, conversions for Spring Data JDBC, and ids. */
@org.springframework.modulith.ApplicationModule(allowedDependencies = {})
@NullMarked
package app.tankround.persistence;

import org.jspecify.annotations.NullMarked;
