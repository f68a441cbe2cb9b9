package app.tankround.feeds;

/** Whose calendar it is. */
public enum FeedKind {
    TECHNICIAN,
    VAN,
    CLIENT
}
