package app.tankround.clients;

import app.tankround.accounts.DepotId;
import org.jspecify.annotations.Nullable;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Embedded;

/** @param depotId the depot that stands there, exactly where no client does */
record Site(
        @Id SiteId id,
        @Embedded.Empty SiteDetails details,
        @Nullable DepotId depotId,
        @Version int version) {

    Site with(SiteDetails changed, @Nullable DepotId changedDepot) {
        return new Site(id, changed, changedDepot, version);
    }
}
