/**
 * The client's report of one visit. All texts arrive display-ready in the language of the report; only their places are
 * decided here. A list that is empty leaves its section out.
 */
@NullMarked
package app.tankround.reports.servicereport;

import org.jspecify.annotations.NullMarked;
