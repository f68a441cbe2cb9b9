/** PDF documents from plain, display-ready records. Knows nothing of Spring, SQL or the backend's types. */
@NullMarked
package app.tankround.reports;

import org.jspecify.annotations.NullMarked;
