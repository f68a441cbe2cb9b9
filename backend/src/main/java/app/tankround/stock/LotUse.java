package app.tankround.stock;

import app.tankround.clients.SiteId;
import app.tankround.tanks.WaterSystemId;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;

/**
 * Where something of a lot went.
 *
 * @param system into which it went; empty where it only lies at the site
 * @param certain whether the lot is known; otherwise it may have been this lot or another of the same item
 * @param what a message key for how it went there
 */
public record LotUse(
        SiteId site,
        Optional<WaterSystemId> system,
        BigDecimal amount,
        String unit,
        Instant at,
        boolean certain,
        String what) {}
