package app.tankround.tanks;

import java.util.Map;
import java.util.Optional;

/**
 * A section that another module adds to a system wherever a system is shown whole: on its own page and on the page of its
 * client's account.
 *
 * <p>A fragment is inserted with a local variable {@code panel}, whose {@code model} is what {@link #model} answered.
 */
public interface SystemPanel {

    /** Smaller comes first. */
    int order();

    /** Template and fragment for the system's own page, such as {@code readings/panels :: series}. */
    String fragment();

    /** A short fragment for the page of the account, where there is one. */
    default Optional<String> summaryFragment() {
        return Optional.empty();
    }

    Map<String, Object> model(WaterSystemView system);
}
