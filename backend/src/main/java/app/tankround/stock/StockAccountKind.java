package app.tankround.stock;

/** What an account of the ledger stands for. Names are kept in rows: they are added to, never renamed. */
public enum StockAccountKind {
    /** Fit for use on the shelf. Without a place it is the depot that the catalogue counts; others are named. */
    DEPOT(Role.PLACE, false),
    VAN(Role.PLACE, true),
    /** The business's own, left at a client's site. */
    SITE(Role.PLACE, true),
    /** The client's, kept at the site; never worth anything to the business. */
    CLIENT_OWNED(Role.PLACE, true),
    /** At work at a water system, such as a sock in its holder. */
    IN_USE(Role.PLACE, true),
    /** To be washed: in a van or at a site, or at the depot without a place. */
    DIRTY(Role.PLACE, false),
    /** The same from a system in quarantine, suspected or under treatment, which is kept and washed apart. */
    DIRTY_APART(Role.PLACE, false),
    /** The place is the load. */
    IN_WASH(Role.PLACE, false),
    /** The place is the load. */
    DRYING(Role.PLACE, false),

    /** Used up; the place is the water system that it went into. */
    USED(Role.SINK, false),
    WASTED(Role.SINK, false),
    BROKEN(Role.SINK, false),
    LOST(Role.SINK, false),
    /** Worn out or no longer wanted. */
    RETIRED(Role.SINK, false),
    SENT_BACK(Role.SINK, false),

    /** What was there when the ledger began, or when the item was added. */
    OPENING(Role.SOURCE, false),
    BOUGHT(Role.SOURCE, false),
    /** Made by the business itself. */
    MADE(Role.SOURCE, false),
    /** Given by a client, such as salt of their own. */
    GIVEN(Role.SOURCE, false),
    /** What a count found too much came from here, what it found too little went here. */
    COUNT_DIFFERENCE(Role.SOURCE, false),
    /** Between two lots: what was booked without a lot and is known to be of one. */
    LOT_NAMED(Role.SOURCE, false);

    enum Role {
        /** Somewhere things are: never less than nothing, unless a movement runs ahead. */
        PLACE,
        /** What things became: never less than nothing. */
        SINK,
        /** Where things come from: its balance goes below zero, so that the sum over all accounts is 0. */
        SOURCE
    }

    private final Role role;
    private final boolean placed;

    StockAccountKind(Role role, boolean placed) {
        this.role = role;
        this.placed = placed;
    }

    /** Whether things lie there and can be counted. */
    public boolean isPlace() {
        return role == Role.PLACE;
    }

    /** Whether what lies there is the business's own. */
    public boolean isOurs() {
        return isPlace() && this != CLIENT_OWNED;
    }

    boolean mayBeBelowZero() {
        return role == Role.SOURCE;
    }

    boolean needsPlace() {
        return placed;
    }
}
