package app.tankround.clients;

/** Whether the residual-current device of a site (RCD, GFCI) may be tested at a visit. */
public enum ResidualCurrentTest {
    /** Nobody has said; whoever is there asks first. */
    NOT_ASKED,
    AGREED,
    NOT_AGREED,
    /** An outage would do harm there, as in a server room. */
    NEVER;

    /** Whether the check before leaving asks for it. */
    public boolean isAskedBeforeLeaving() {
        return this == NOT_ASKED || this == AGREED;
    }
}
