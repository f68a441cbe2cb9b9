package app.tankround.clients;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.ChangedFields;
import app.tankround.persistence.RecordLock;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.util.Collection;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What stops at the sites need, and when they can be. */
@Service
public class SiteNeedsService {

    private final SiteNeedsRepository needs;
    private final SiteService sites;
    private final RecordLock lock;
    private final ChangeLog changeLog;
    private final ApplicationEventPublisher events;

    SiteNeedsService(
            SiteNeedsRepository needs,
            SiteService sites,
            RecordLock lock,
            ChangeLog changeLog,
            ApplicationEventPublisher events) {
        this.needs = needs;
        this.sites = sites;
        this.lock = lock;
        this.changeLog = changeLog;
        this.events = events;
    }

    /** What is known; every day and nothing special, where nobody has said anything. */
    public SiteNeedsView of(SiteId site) {
        return needs.findById(site)
                .map(stored -> new SiteNeedsView(site, stored.details(), stored.version()))
                .orElseGet(() -> new SiteNeedsView(site, SiteNeedsDetails.none(), 0));
    }

    /** What is known of those of these sites of which somebody has said anything. */
    public Map<SiteId, SiteNeedsView> known(Collection<SiteId> sites) {
        return needs.findAllById(sites).stream()
                .collect(Collectors.toMap(
                        SiteNeeds::siteId,
                        stored -> new SiteNeedsView(stored.siteId(), stored.details(), stored.version())));
    }

    /** Minutes from arrival to work of those of these sites of which any are known. */
    public Map<SiteId, Integer> arrivalMinutes(Collection<SiteId> sites) {
        return needs.findAllById(sites).stream()
                .filter(site -> site.arrivalMinutes() != null)
                .collect(Collectors.toMap(
                        SiteNeeds::siteId, site -> site.details().arrivalMinutesOrNone()));
    }

    /**
     * Changes what is known.
     *
     * @param version the one that was shown; 0 where nobody had said anything
     * @throws NotFound if there is no such site
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void change(SiteId site, int version, SiteNeedsDetails details) {
        lock.hold("site needs " + site);
        sites.require(site);
        Optional<SiteNeeds> stored = needs.findById(site);
        SiteNeedsDetails before = stored.map(SiteNeeds::details).orElseGet(SiteNeedsDetails::none);
        int current = stored.map(SiteNeeds::version).orElse(0);
        if (before.equals(details)) {
            return;
        }
        if (current != version) {
            throw new StaleVersion("/sites/" + site, before, details);
        }
        needs.save(SiteNeeds.of(site, details, current));
        changeLog.record("site", site, "needs-changed", ChangedFields.between(before, details));
        if (!before.weekdays().equals(details.weekdays()) || !before.closures().equals(details.closures())) {
            events.publishEvent(new SiteDaysChanged(site));
        }
    }
}
