package app.tankround.clients;

/** The days on which somebody can come to a site are others than before. */
public record SiteDaysChanged(SiteId site) {}
