@NullMarked
package app.tankround.schedule.web;

import org.jspecify.annotations.NullMarked;
