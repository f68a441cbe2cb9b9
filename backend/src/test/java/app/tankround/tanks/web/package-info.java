@NullMarked
package app.tankround.tanks.web;

import org.jspecify.annotations.NullMarked;
