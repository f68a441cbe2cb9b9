package app.tankround.stock;

import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Volume;
import java.time.Instant;
import java.util.Optional;

/**
 * A tank or vat of a depot.
 *
 * @param volume that it holds
 * @param role empty where it takes no part in the water plan
 * @param content what is in it; empty where nobody has looked and no batch was made in it
 * @param version 0 where it never took part
 */
public record VatView(
        WaterSystemId id,
        String code,
        String name,
        Volume volume,
        Optional<VatRole> role,
        Optional<Content> content,
        int version) {

    /**
     * What is in it.
     *
     * @param batch which batch it is; empty for purified water, or where nobody knows
     * @param since when somebody looked, or the batch was made
     * @param workedOut whether water was moved since
     */
    public record Content(Volume volume, Optional<WaterBatchId> batch, Instant since, boolean workedOut) {}

    /** How much is in it, as far as anybody knows. */
    public Volume level() {
        return content.map(Content::volume).orElse(Volume.ofLitres(0));
    }
}
