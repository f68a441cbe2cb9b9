@NullMarked
package app.tankround.instruments.web;

import org.jspecify.annotations.NullMarked;
