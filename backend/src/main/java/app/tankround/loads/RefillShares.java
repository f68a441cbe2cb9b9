package app.tankround.loads;

import app.tankround.units.Volume;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;

/**
 * How much is filled at which stop, for later ones only. From the last stop backwards each gives as much as it may and as what
 * comes after it still needs: every litre is then taken as late as it can be. Since what may be given from some stop on serves
 * part of what may be given from an earlier one on, that is the most at once for all stops together and for those after any leg,
 * so the depot makes least and the van is lightest on every leg; {@code RefillSharesTests} tries all ways.
 */
final class RefillShares {

    private static final int TENTHS = 10;
    private static final double ROUNDING = 1e-6;

    private RefillShares() {}

    /**
     * To a tenth of a litre, down; stops at which nothing is filled are left out.
     *
     * @param needed who needs how much, in the order of the round
     * @param loaded how much the van takes for all of that, not less than needed; what is beyond goes with each in proportion
     * @param allowed L that may be taken at a stop, by its position
     */
    static NavigableMap<Integer, Volume> of(List<StopShare> needed, Volume loaded, Map<Integer, Double> allowed) {
        NavigableMap<Integer, Volume> filled = new TreeMap<>();
        double planned = needed(needed, 0);
        if (planned <= 0) {
            return filled;
        }
        double beyond = loaded.litres() / planned;
        double later = 0;
        for (Map.Entry<Integer, Double> source :
                new TreeMap<>(allowed).descendingMap().entrySet()) {
            double missing = needed(needed, source.getKey()) * beyond - later;
            double litres = Math.floor(Math.min(source.getValue(), missing) * TENTHS + ROUNDING) / TENTHS;
            if (litres > 0) {
                filled.put(source.getKey(), Volume.ofLitres(litres));
                later += litres;
            }
        }
        return filled;
    }

    /** What stops after one need. */
    private static double needed(List<StopShare> needed, int after) {
        return needed.stream()
                .filter(share -> share.position() > after)
                .mapToDouble(share -> share.amount().doubleValue())
                .sum();
    }
}
