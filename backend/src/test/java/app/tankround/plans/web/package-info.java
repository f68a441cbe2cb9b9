@NullMarked
package app.tankround.plans.web;

import org.jspecify.annotations.NullMarked;
