package app.tankround.web;

import java.util.Set;

/**
 * A place in the main navigation. Each module contributes its own as a bean.
 *
 * @param order smaller comes first
 * @param key section key that a page names to mark itself as the current one; its label is the message {@code nav.KEY}
 * @param roles who sees it, such as {@code OWNER}
 */
public record NavigationItem(int order, String key, String href, Set<String> roles) {

    public String labelKey() {
        return "nav." + key;
    }

    public static NavigationItem forOffice(int order, String key, String href) {
        return new NavigationItem(order, key, href, Set.of("OWNER", "OFFICE"));
    }

    public static NavigationItem forStaff(int order, String key, String href) {
        return new NavigationItem(order, key, href, Set.of("OWNER", "OFFICE", "TECHNICIAN"));
    }
}
