package app.tankround.accounts;

/** A base of the business. Where it stands is said by its site. */
public record DepotView(DepotId id, String code, String name, int version) {}
