package app.tankround.clients;

import java.util.Optional;

/**
 * What was agreed with a site that keeps people from harm there; components as in {@link SiteSafetyDetails}.
 *
 * @param version 0 for a site of which nobody has said anything
 */
public record SiteSafetyView(
        SiteId siteId,
        ResidualCurrentTest residualCurrentTest,
        Optional<String> residualCurrentNote,
        LoneHazard checkInFor,
        Optional<String> checkInNote,
        int version) {}
