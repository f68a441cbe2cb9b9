@NullMarked
package app.tankround.clients.web;

import org.jspecify.annotations.NullMarked;
