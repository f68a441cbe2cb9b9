package app.tankround.stock;

import app.tankround.chemistry.SaltYield;
import java.time.LocalDate;

/**
 * What the batches made of a lot of salt say of its yield.
 *
 * @param lot as it was written down with the batches
 * @param batches that were measured
 * @param opened on which the first batch was made of it
 * @param last on which the last one was
 * @param yield by the batches, drawn to what is known of other lots
 * @param own mean of its batches alone, weighted by how well each was measured
 * @param others mean of what other lots are known by, the yield that the business stated among it
 * @param apart how many standard deviations {@code own} is from {@code others}, negative below it
 */
public record SaltLotView(
        String lot,
        int batches,
        LocalDate opened,
        LocalDate last,
        SaltYield yield,
        double own,
        double others,
        double apart) {

    /** Beyond so many standard deviations somebody should look; one lot in twenty is by chance. */
    static final double OUT_OF_FAMILY = 2;

    /** Whether it yields more or less than lots of this salt do. */
    public boolean outOfFamily() {
        return Math.abs(apart) > OUT_OF_FAMILY;
    }
}
