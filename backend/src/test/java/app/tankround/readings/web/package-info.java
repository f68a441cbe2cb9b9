@NullMarked
package app.tankround.readings.web;

import org.jspecify.annotations.NullMarked;
