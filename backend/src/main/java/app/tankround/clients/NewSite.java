package app.tankround.clients;

/** A site to be added. The id is made before the form is shown, so that sending it twice adds once. */
public record NewSite(SiteId id, SiteDetails details) {}
