/** What all pages share: layout, formats, number input, problem details, and the shape of an entry. */
@org.springframework.modulith.ApplicationModule(allowedDependencies = {"units", "persistence"})
@NullMarked
package app.tankround.web;

import org.jspecify.annotations.NullMarked;
