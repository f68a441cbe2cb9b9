package app.tankround.loads;

import app.tankround.accounts.VanView;
import app.tankround.chemistry.SaltWater;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.util.List;

/**
 * What comes back to the depot of what went along, and what is taken along on the way: water for which there is no drain.
 * Socks and media come back used and are taken to weigh what they weighed (own choice, no source); containers for waste beside
 * the emptied drums belong to the fixed load.
 */
final class WayBack {

    private static final Salinity FRESH = Salinity.ofPractical(0);

    private WayBack() {}

    /** Everything in the van when it is back from a round, people and tools included. */
    static Mass mass(VanView van, List<SystemWork> works, List<LoadLine> lines) {
        Mass mass = van.fixedLoad();
        for (LoadLine line : lines) {
            mass = mass.plus(kept(van, line));
        }
        for (SystemWork work : works) {
            mass = mass.plus(waste(work));
        }
        return mass;
    }

    /** The room that full drums take, by what they hold: a drum that is not full takes as much. */
    static Volume roomAtDeparture(VanView van, List<LoadLine> lines) {
        double drums = lines.stream()
                .filter(line -> line.unit() == LoadUnit.DRUM)
                .mapToDouble(line -> line.amount().doubleValue())
                .sum();
        return Volume.ofLitres(drums * van.drum().litres());
    }

    /** The most room that drums take: emptied ones are filled with what is taken out, and where that is more it takes others. */
    static Volume room(VanView van, List<SystemWork> works, List<LoadLine> lines) {
        double waste = works.stream()
                .mapToDouble(work -> Math.ceil(
                        LoadRules.takenAlong(work).doubleValue() / van.drum().litres()))
                .sum();
        return Volume.ofLitres(Math.max(
                roomAtDeparture(van, lines).litres(), waste * van.drum().litres()));
    }

    private static Mass kept(VanView van, LoadLine line) {
        return switch (line.group()) {
            case SALT_WATER, RO_DI_WATER ->
                Mass.ofKilograms(van.drumEmpty().kilograms() * line.amount().doubleValue());
            case DRY_SALT, DOSES -> Mass.ofKilograms(0);
            case SOCKS, MEDIA, TEST_KITS, INSTRUMENTS, TOOLS -> line.mass();
        };
    }

    private static Mass waste(SystemWork work) {
        BigDecimal litres = LoadRules.takenAlong(work);
        if (litres.signum() == 0) {
            return Mass.ofKilograms(0);
        }
        Salinity salinity = work.salinity().map(SalinityGoal::salinity).orElse(FRESH);
        return SaltWater.mass(Volume.ofLitres(litres.doubleValue()), salinity, LoadRules.MIXED_AT);
    }
}
