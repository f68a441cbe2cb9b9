package app.tankround.readings;

/** Who is at risk because of something in doubt, the most pressing first. */
public enum DoubtRisk {
    /** The last that is known of water with animals in it is in doubt, and it is or may be outside its target. */
    ANIMALS,
    /** A system that is looked after, or water on its way into one. */
    LIVE_SYSTEM,
    /** Somebody was told what may be wrong. */
    REPORT,
    /** A system that is no longer looked after. */
    PAST
}
