package app.tankround.loads;

import app.tankround.accounts.VanView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Which systems of a round get a part of the water of which most is on board, thinned at the site with its own RO/DI water,
 * instead of drums of their own: those that are clean, kept fresher, at a site with RO/DI water, and for which that is lighter.
 * A batch that is mixed for another system anyway is not thinned away.
 */
final class ThinnedSystems {

    private ThinnedSystems() {}

    static Map<WaterSystemId, Thinning> of(List<SystemWork> works, SharedSalinities shared, VanView van) {
        Salinity main = shared.main().orElse(null);
        if (main == null) {
            return Map.of();
        }
        Map<Double, List<SystemWork>> byBatch = new LinkedHashMap<>();
        works.stream()
                .filter(work -> !LoadRules.mixesThere(work)
                        && LoadRules.litresChanged(work).isPresent())
                .forEach(work -> work.salinity()
                        .ifPresent(goal -> byBatch.computeIfAbsent(
                                        shared.of(work, goal).practical(), none -> new ArrayList<>())
                                .add(work)));
        Map<WaterSystemId, Thinning> thinned = new HashMap<>();
        byBatch.forEach((salinity, together) -> {
            Map<WaterSystemId, Thinning> here = new HashMap<>();
            together.stream()
                    .filter(work -> !work.sick()
                            && work.site().ownRoDi()
                            && salinity < main.practical() - SharedSalinities.WITHIN)
                    .forEach(work -> thin(work, main, van, here));
            if (here.size() == together.size()) {
                thinned.putAll(here);
            }
        });
        return thinned;
    }

    private static void thin(SystemWork work, Salinity main, VanView van, Map<WaterSystemId, Thinning> into) {
        Volume needed =
                Volume.ofLitres(LoadRules.litresChanged(work).orElseThrow().doubleValue());
        Thinning thinning =
                Thinning.of(needed, main, work.salinity().orElseThrow().salinity());
        if (thinning.isLighter(needed, van.drum(), van.drumEmpty())) {
            into.put(work.system().id(), thinning);
        }
    }
}
