/** The page of a plant for purified water and its forms. */
@NullMarked
package app.tankround.purification.web;

import org.jspecify.annotations.NullMarked;
