package app.tankround.schedule;

/** What became of a due visit. */
public enum PlannedVisitState {
    /** Still to be done, however long ago it was due. */
    DUE,
    DONE,
    /** Somebody decided, with a reason, that it will not be done. */
    DROPPED,
    /** The agreement was changed and no longer asks for a visit on that day. */
    WITHDRAWN
}
