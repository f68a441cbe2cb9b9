package app.tankround.tanks;

/** How the net volume of a system is known. */
public enum VolumeBasis {
    /** Somebody said so, or measured it when filling. */
    STATED,
    /** Display minus displacement plus sump. */
    CALCULATED
}
