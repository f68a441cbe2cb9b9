/** Pages and API of sign-in, people, vans, settings and the CSV exchange. */
@NullMarked
package app.tankround.accounts.web;

import org.jspecify.annotations.NullMarked;
