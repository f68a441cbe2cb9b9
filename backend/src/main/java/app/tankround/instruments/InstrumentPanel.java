package app.tankround.instruments;

import java.util.Map;

/**
 * A section that another module adds to an instrument's page.
 *
 * <p>The fragment is inserted with a local variable {@code panel}, whose {@code model} is what {@link #model} answered.
 */
public interface InstrumentPanel {

    /** Smaller comes first. */
    int order();

    /** Template and fragment, such as {@code readings/panels :: doubt}. */
    String fragment();

    Map<String, Object> model(InstrumentView instrument);
}
