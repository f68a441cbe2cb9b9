package app.tankround.followups;

/** How soon somebody is needed. */
public enum Urgency {
    /** Animals or people may come to harm. */
    NOW,
    TODAY,
    SOON
}
