package app.tankround.stock;

import app.tankround.accounts.DepotId;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** How accounts of the ledger are said. */
@Component
public class StockPlaces {

    private final Fleet fleet;
    private final SiteService sites;
    private final WaterSystems systems;
    private final MessageSource messages;

    StockPlaces(Fleet fleet, SiteService sites, WaterSystems systems, MessageSource messages) {
        this.fleet = fleet;
        this.sites = sites;
        this.systems = systems;
        this.messages = messages;
    }

    /** Such as {@code In Van 2} or {@code Used: Foyer reef, Harbour Hotel}. */
    public String say(StockAccount account, Locale locale) {
        String kind = messages.getMessage("stock.account." + account.kind(), null, locale);
        return account.place()
                .flatMap(place -> place(account, place))
                .map(place -> kind + ": " + place)
                .orElse(kind);
    }

    private Optional<String> place(StockAccount account, UUID place) {
        return switch (account.kind()) {
            case DEPOT -> fleet.find(DepotId.of(place)).map(depot -> depot.name());
            case VAN -> fleet.find(VanId.of(place)).map(van -> van.name());
            case SITE, CLIENT_OWNED -> site(SiteId.of(place));
            case IN_USE, USED -> system(place);
            case DIRTY, DIRTY_APART ->
                fleet.find(VanId.of(place)).map(van -> van.name()).or(() -> site(SiteId.of(place)));
            default -> Optional.empty();
        };
    }

    private Optional<String> system(UUID place) {
        return systems.find(WaterSystemId.of(place))
                .map(system -> site(system.siteId())
                        .map(site -> system.name() + ", " + site)
                        .orElse(system.name()));
    }

    private Optional<String> site(SiteId id) {
        return sites.find(id).map(site -> site.title());
    }
}
