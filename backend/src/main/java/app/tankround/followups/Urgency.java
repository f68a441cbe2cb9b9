package app.tankround.followups;

/** How soon somebody is needed, the soonest first. */
public enum Urgency {
    /** Something was found that kills, or was done that may. */
    DEADLY,
    /** Animals or people may come to harm. */
    NOW,
    TODAY,
    SOON
}
