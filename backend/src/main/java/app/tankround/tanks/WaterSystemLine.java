package app.tankround.tanks;

import app.tankround.clients.SiteId;
import java.time.LocalDate;

/** A line of the list of systems. */
public record WaterSystemLine(
        WaterSystemId id,
        String code,
        String name,
        SystemKind kind,
        InfectionClass infectionClass,
        LocalDate classSince,
        double netVolumeLitres,
        VolumeBasis basis,
        boolean hasAcrylic,
        boolean eaten,
        boolean active,
        SiteId siteId,
        String siteName,
        String clientName) {}
