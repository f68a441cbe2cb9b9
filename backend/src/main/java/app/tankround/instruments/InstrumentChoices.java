package app.tankround.instruments;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.units.Quantity;
import app.tankround.web.Choice;
import java.time.Clock;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The instruments that can be chosen, those that can be trusted first; one that decides nothing says so and names another. */
@Service
@Transactional(readOnly = true)
public class InstrumentChoices {

    private final CheckHistories histories;
    private final BusinessDay businessDay;
    private final CurrentPerson currentPerson;
    private final MessageSource messages;
    private final Clock clock;

    InstrumentChoices(
            CheckHistories histories,
            BusinessDay businessDay,
            CurrentPerson currentPerson,
            MessageSource messages,
            Clock clock) {
        this.histories = histories;
        this.businessDay = businessDay;
        this.currentPerson = currentPerson;
        this.messages = messages;
        this.clock = clock;
    }

    private record Known(InstrumentView instrument, InstrumentState state) {

        boolean usable() {
            return state.code().equals("SOUND") || state.code().equals("KIT");
        }

        boolean decidesNothing() {
            return state.code().equals("SUSPECT") || state.code().equals("CONDEMNED");
        }
    }

    /** All that are not retired. */
    public List<Choice> all(Locale locale) {
        List<Known> known = known().toList();
        return known.stream()
                .map(each -> new Choice(each.instrument().id().toString(), text(each, known, locale)))
                .toList();
    }

    /**
     * One of the same quantity to use instead: on the same scale, of the same kind, and in the hands of whoever asks, if
     * there is one; empty if none can be trusted.
     */
    public Optional<InstrumentView> insteadOf(InstrumentView instrument) {
        return insteadOf(instrument, known().toList());
    }

    private Stream<Known> known() {
        Instant now = clock.instant();
        return histories.all().values().stream()
                .map(history -> new Known(history.instrument(), InstrumentState.of(history, now, businessDay.of(now))))
                .filter(each -> !each.state().code().equals("RETIRED"))
                .sorted(Comparator.comparing((Known each) -> !each.usable())
                        .thenComparing(Known::decidesNothing)
                        .thenComparing(each -> each.instrument().code()));
    }

    private Optional<InstrumentView> insteadOf(InstrumentView instrument, List<Known> known) {
        Quantity quantity = instrument.quantity();
        Optional<PersonId> asking = currentPerson.id();
        return known.stream()
                .filter(Known::usable)
                .map(Known::instrument)
                .filter(other -> other.quantity() == quantity && !other.id().equals(instrument.id()))
                .min(Comparator.comparing((InstrumentView other) -> !onOneScale(instrument, other))
                        .thenComparing(other -> other.kind() != instrument.kind())
                        .thenComparing(
                                other -> asking.isEmpty() || !other.holder().equals(asking)));
    }

    private static boolean onOneScale(InstrumentView one, InstrumentView other) {
        return one.unit() == other.unit() && one.gravityReference().equals(other.gravityReference());
    }

    private String text(Known each, List<Known> known, Locale locale) {
        InstrumentView instrument = each.instrument();
        String name = instrument.code() + ", " + instrument.name();
        if (!each.state().isNeeded()) {
            return name;
        }
        String state = messages.getMessage("instruments.status." + each.state().code(), new Object[0], locale);
        return insteadOf(instrument, known)
                .map(other -> messages.getMessage(
                        "instruments.choice.instead", new Object[] {name, state, other.code()}, locale))
                .orElseGet(() -> messages.getMessage("instruments.choice.state", new Object[] {name, state}, locale));
    }
}
