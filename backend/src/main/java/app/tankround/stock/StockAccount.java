package app.tankround.stock;

import app.tankround.accounts.DepotId;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.tanks.WaterSystemId;
import java.util.Optional;
import java.util.UUID;

/**
 * Where something is, where it comes from, or what it became.
 *
 * @param place which van, site, water system or further depot
 */
public record StockAccount(StockAccountKind kind, Optional<UUID> place) {

    /** @throws IllegalArgumentException if a van, a site or a system is meant and not named */
    public StockAccount {
        if (kind.needsPlace() && place.isEmpty()) {
            throw new IllegalArgumentException(kind + " without its place");
        }
    }

    /** The shelf of the depot, as the catalogue shows and counts it. */
    public static StockAccount depot() {
        return of(StockAccountKind.DEPOT);
    }

    /** The shelf of a further depot. */
    public static StockAccount depot(DepotId depot) {
        return of(StockAccountKind.DEPOT, depot.value());
    }

    public static StockAccount van(VanId van) {
        return of(StockAccountKind.VAN, van.value());
    }

    public static StockAccount site(SiteId site) {
        return of(StockAccountKind.SITE, site.value());
    }

    public static StockAccount clientOwned(SiteId site) {
        return of(StockAccountKind.CLIENT_OWNED, site.value());
    }

    public static StockAccount inUse(WaterSystemId system) {
        return of(StockAccountKind.IN_USE, system.value());
    }

    public static StockAccount used(WaterSystemId system) {
        return of(StockAccountKind.USED, system.value());
    }

    /** @throws IllegalArgumentException if such an account needs its place */
    public static StockAccount of(StockAccountKind kind) {
        return new StockAccount(kind, Optional.empty());
    }

    public static StockAccount of(StockAccountKind kind, UUID place) {
        return new StockAccount(kind, Optional.of(place));
    }

    /** The account as a form sends it: its kind, and its place after a slash. */
    public String code() {
        return place.map(which -> kind + "/" + which).orElseGet(kind::name);
    }

    /** The account of that {@link #code()}; empty where a text is none. */
    public static Optional<StockAccount> ofCode(String code) {
        String[] parts = code.split("/", 2);
        try {
            StockAccountKind kind = StockAccountKind.valueOf(parts[0]);
            return Optional.of(parts.length > 1 ? of(kind, UUID.fromString(parts[1])) : of(kind));
        } catch (IllegalArgumentException none) {
            return Optional.empty();
        }
    }
}
