/**
 * PDF documents from plain, display-ready records. Knows nothing of Spring, SQL or the backend's types.
 *
 * <p>{@link app.tankround.reports.PdfDocument} lays out A4 pages as tagged PDF: PDF/A-3a (ISO 19005-3) for keeping and
 * PDF/UA-1 (ISO 14289-1) for reading aloud. Lengths are in points (1/72 inch); on a page, y grows downwards from the
 * upper edge.
 */
@NullMarked
package app.tankround.reports;

import org.jspecify.annotations.NullMarked;
