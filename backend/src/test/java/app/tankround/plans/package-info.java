@NullMarked
package app.tankround.plans;

import org.jspecify.annotations.NullMarked;
