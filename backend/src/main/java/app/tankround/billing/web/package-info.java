/** The month's list for whoever writes the invoices. */
@NullMarked
package app.tankround.billing.web;

import org.jspecify.annotations.NullMarked;
