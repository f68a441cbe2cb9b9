package app.tankround.stock.web;

import app.tankround.clients.SitePanel;
import app.tankround.clients.SiteView;
import app.tankround.stock.ClientOwned;
import java.util.List;
import java.util.Map;
import org.springframework.stereotype.Component;

/** How many things of their own a client keeps at a site. */
@Component
class ClientOwnedPanel implements SitePanel {

    /** After the systems there. */
    private static final int ORDER = 50;

    private final ClientOwned owned;

    ClientOwnedPanel(ClientOwned owned) {
        this.owned = owned;
    }

    @Override
    public int order() {
        return ORDER;
    }

    @Override
    public String fragment() {
        return "stock/panels :: site";
    }

    @Override
    public Map<String, Object> model(SiteView site) {
        return site.isOwnDepot()
                ? Map.of("site", site, "there", List.of(), "shown", false)
                : Map.of("site", site, "there", owned.at(site.id()), "shown", true);
    }
}
