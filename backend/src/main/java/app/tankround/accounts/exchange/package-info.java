/** The CSV exchange: one zip of UTF-8 RFC 4180 files out, the same or single files in. */
@NullMarked
package app.tankround.accounts.exchange;

import org.jspecify.annotations.NullMarked;
