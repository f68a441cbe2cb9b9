package app.tankround.web;

/** What a page may load (Content Security Policy Level 3): no inline script or style, and nothing from elsewhere. */
public final class PagePolicy {

    /** The name of the header. */
    public static final String HEADER = "Content-Security-Policy";

    private static final String PICTURES = "img-src 'self' blob: data:";

    /** Photos may come from the page's own memory. */
    public static final String USUAL = "default-src 'none'; script-src 'self'; style-src 'self'; " + PICTURES
            + "; font-src 'self'; connect-src 'self'; manifest-src 'self'; "
            + "worker-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

    private PagePolicy() {}

    /**
     * The usual policy with pictures from one other place.
     *
     * @param origin scheme, host and port, without anything that has a meaning in a header
     */
    public static String withPicturesFrom(String origin) {
        return USUAL.replace(PICTURES, PICTURES + " " + origin);
    }
}
