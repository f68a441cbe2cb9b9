@NullMarked
package app.tankround.clients;

import org.jspecify.annotations.NullMarked;
