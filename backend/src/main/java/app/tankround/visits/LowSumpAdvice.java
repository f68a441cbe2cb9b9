package app.tankround.visits;

import app.tankround.chemistry.LowSump;
import app.tankround.plans.PlanWords;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** What to do about a low sump: fresh water after evaporation, salt water after a leak. */
@Component
class LowSumpAdvice {

    private static final Duration MEMORY = Duration.ofDays(120);

    private final ReadingService readings;
    private final SumpsOfVisits sumps;
    private final MessageSource messages;

    LowSumpAdvice(ReadingService readings, SumpsOfVisits sumps, MessageSource messages) {
        this.readings = readings;
        this.sumps = sumps;
        this.messages = messages;
    }

    /** What the water that is left says, beside the last salinity from before the visit that may be believed. */
    String of(WaterSystemView system, Volume missing, Salinity found, EntryContext context, PlanWords words) {
        Optional<ReadingView> trusted = trusted(system.id(), context.visit(), context.at());
        double share = missing.litres() / system.netVolume().litres();
        String missed = words.volume(missing.litres());
        if (trusted.isEmpty()) {
            return say("visits.low-sump.NO_TRUSTED", words, words.share(share));
        }
        double before = trusted.get().assessment().salinity().orElseThrow();
        // The reading of now is taken to be as uncertain as the one before.
        double uncertainty =
                Math.sqrt(2) * trusted.get().assessment().salinityUncertainty().orElse(0.0);
        Salinity last = Salinity.ofPractical(before);
        double evaporated = LowSump.apparent(last, share).practical();
        return say(
                "visits.low-sump." + LowSump.lost(last, found, share, uncertainty),
                words,
                words.share(share),
                words.value(Quantity.SALINITY, before),
                words.value(Quantity.SALINITY, found.practical()),
                words.value(Quantity.SALINITY, evaporated),
                words.change(Quantity.SALINITY, evaporated - before),
                missed);
    }

    /** At the visit itself, and at any at which the sump was low, the water was read that is to be judged. */
    private Optional<ReadingView> trusted(WaterSystemId system, VisitRow visit, Instant at) {
        Instant begun = visit.startedAt().filter(at::isAfter).orElse(at);
        return readings.series(system, Quantity.SALINITY, begun.minus(MEMORY), begun).stream()
                .filter(reading ->
                        reading.visitId().filter(visit.id().value()::equals).isEmpty())
                .filter(reading ->
                        reading.assessment().trusted() && !reading.assessment().doubtful())
                .filter(reading -> reading.assessment().salinity().isPresent())
                .filter(reading -> sumps.low(reading).isEmpty())
                .reduce((earlier, later) -> later);
    }

    private String say(String code, PlanWords words, Object... args) {
        return messages.getMessage(code, args, words.locale());
    }
}
