/** What integration tests share: one PostgreSQL server, a database for each Spring context, and a clock that stands still. */
@NullMarked
package app.tankround.testing;

import org.jspecify.annotations.NullMarked;
