package app.tankround.web;

/** There is no such thing under that id or address. Answered as 404. */
public class NotFound extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** @param kind what was looked for, such as {@code water-system} */
    public NotFound(String kind, Object id) {
        super("no " + kind + " " + id);
    }
}
