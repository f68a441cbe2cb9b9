package app.tankround.clients;

import java.util.Map;

/**
 * A section that another module adds to a site wherever a site is shown whole: on its own page and on its client's.
 *
 * <p>The fragment is inserted with a local variable {@code panel}, whose {@code model} is what {@link #model} answered.
 */
public interface SitePanel {

    /** Smaller comes first. */
    int order();

    /** Template and fragment, such as {@code tanks/panels :: site}. */
    String fragment();

    Map<String, Object> model(SiteView site);
}
