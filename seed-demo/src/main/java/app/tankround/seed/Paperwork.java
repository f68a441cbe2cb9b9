package app.tankround.seed;

import app.tankround.clients.ClientService;
import app.tankround.clients.ContactView;
import app.tankround.clients.SiteService;
import app.tankround.rounds.StopView;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitReport;
import java.util.List;
import org.springframework.stereotype.Component;

/** What the office does after a visit: it makes the report and hands it over. */
@Component
class Paperwork {

    private final VisitReport reports;
    private final SiteService sites;
    private final ClientService clients;

    Paperwork(VisitReport reports, SiteService sites, ClientService clients) {
        this.reports = reports;
        this.sites = sites;
        this.clients = clients;
    }

    /** Hands the reports of these finished visits to the clients' contacts. */
    void handOver(List<StopView> stops) {
        for (StopView stop : stops) {
            VisitId visit = VisitId.ofStop(stop.id());
            int version = reports.make(visit);
            sites.require(stop.siteId()).clientId().map(clients::contacts).orElse(List.of()).stream()
                    .findFirst()
                    .map(ContactView::name)
                    .ifPresent(name -> reports.handOver(visit, version, name));
        }
    }
}
