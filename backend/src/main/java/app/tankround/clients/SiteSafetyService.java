package app.tankround.clients;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.ChangedFields;
import app.tankround.persistence.RecordLock;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.util.Optional;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What was agreed with the sites that keeps people from harm there. */
@Service
public class SiteSafetyService {

    private final SiteSafeties safeties;
    private final SiteService sites;
    private final RecordLock lock;
    private final ChangeLog changeLog;

    SiteSafetyService(SiteSafeties safeties, SiteService sites, RecordLock lock, ChangeLog changeLog) {
        this.safeties = safeties;
        this.sites = sites;
        this.lock = lock;
        this.changeLog = changeLog;
    }

    /** What was agreed; that nobody has said anything, where nobody has. */
    public SiteSafetyView of(SiteId site) {
        return view(safeties.findById(site).orElseGet(() -> none(site)));
    }

    /**
     * Changes what was agreed.
     *
     * @param version the one that was shown; 0 where nobody had said anything
     * @throws NotFound if there is no such site
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void change(SiteId site, int version, SiteSafetyDetails details) {
        lock.hold("site safety " + site);
        sites.require(site);
        Optional<SiteSafety> stored = safeties.findById(site);
        SiteSafety before = stored.orElseGet(() -> none(site));
        if (before.details().equals(details)) {
            return;
        }
        if (before.version() != version) {
            throw new StaleVersion("/sites/" + site, before.details(), details);
        }
        safeties.save(new SiteSafety(site, details, before.version()));
        changeLog.record("site", site, "safety-changed", ChangedFields.between(before.details(), details));
    }

    private static SiteSafety none(SiteId site) {
        return new SiteSafety(site, SiteSafetyDetails.none(), 0);
    }

    private static SiteSafetyView view(SiteSafety safety) {
        SiteSafetyDetails details = safety.details();
        return new SiteSafetyView(
                safety.siteId(),
                details.residualCurrentTest(),
                Optional.ofNullable(details.residualCurrentNote()),
                details.checkInFor(),
                Optional.ofNullable(details.checkInNote()),
                safety.version());
    }
}
