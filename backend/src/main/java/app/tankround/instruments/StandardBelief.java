package app.tankround.instruments;

import app.tankround.accounts.CurrentPerson;
import java.time.Instant;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;

/** What follows for the instruments that were checked with a standard once somebody stops or begins to believe it. */
@Component
class StandardBelief {

    private final Calibrations calibrations;
    private final InstrumentStandings standings;
    private final CurrentPerson currentPerson;
    private final BusinessDay businessDay;
    private final ApplicationEventPublisher events;

    StandardBelief(
            Calibrations calibrations,
            InstrumentStandings standings,
            CurrentPerson currentPerson,
            BusinessDay businessDay,
            ApplicationEventPublisher events) {
        this.calibrations = calibrations;
        this.standings = standings;
        this.currentPerson = currentPerson;
        this.businessDay = businessDay;
        this.events = events;
    }

    /**
     * Draws the consequences in the transaction that changed the standard. A condemned instrument stays condemned until a
     * person puts it back in use.
     */
    void changed(StandardView before, NewStandard after) {
        if (before.suspiciousSince().equals(after.suspiciousSince())) {
            return;
        }
        Instant from = Stream.of(before.suspiciousSince(), after.suspiciousSince())
                .flatMap(Optional::stream)
                .min(Comparator.naturalOrder())
                .map(businessDay::startOf)
                .orElseThrow();
        calibrations.firstChecksWith(before.id(), from).forEach((instrument, first) -> {
            standings.hold(instrument);
            events.publishEvent(new CheckReconsidered(instrument, before.id(), first));
            standings.afterCheck(
                    instrument, calibrations.of(instrument).getLast().performedAt(), currentPerson.id());
        });
    }
}
