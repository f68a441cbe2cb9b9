/** Addresses of calendars, and the page on which they are made and revoked. */
@NullMarked
package app.tankround.feeds.web;

import org.jspecify.annotations.NullMarked;
