package app.tankround.stock.web;

import app.tankround.accounts.DepotId;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import java.math.BigDecimal;
import java.text.NumberFormat;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** How items, amounts and accounts are said on the pages of the stock. */
@Component
class StockWords {

    private static final int AMOUNT_DECIMALS = 6;

    private final Fleet fleet;
    private final SiteService sites;
    private final WaterSystems systems;
    private final MessageSource messages;

    StockWords(Fleet fleet, SiteService sites, WaterSystems systems, MessageSource messages) {
        this.fleet = fleet;
        this.sites = sites;
        this.systems = systems;
        this.messages = messages;
    }

    String name(StockItemView item, Locale locale) {
        return switch (item.kind()) {
            case TEST_KIT -> word("quantity." + item.name(), locale);
            case SOCK -> item.name() + ", " + item.sizeMm().orElse(0) + " mm";
            case SALT, MEDIA, DOSE -> item.name();
        };
    }

    String kind(StockKind kind, Locale locale) {
        return word("stock.kind." + kind, locale);
    }

    String unit(String unit, Locale locale) {
        return unit.equals("count") ? word("stock.unit.count", locale) : unit;
    }

    /** Such as {@code 12.5 kg} or {@code 3 pieces}. */
    String amount(BigDecimal amount, String unit, Locale locale) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(AMOUNT_DECIMALS);
        return format.format(amount) + " " + unit(unit, locale);
    }

    /** Such as {@code In Van 2} or {@code Used: Foyer reef, Harbour Hotel}. */
    String account(StockAccount account, Locale locale) {
        String kind = word("stock.account." + account.kind(), locale);
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

    String word(String key, Locale locale) {
        return messages.getMessage(key, null, locale);
    }
}
