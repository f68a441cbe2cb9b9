package app.tankround.clients;

import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Embedded;

record SiteSafety(
        @Id SiteId siteId,
        @Embedded.Empty SiteSafetyDetails details,
        @Version int version) {}
