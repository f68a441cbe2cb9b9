package app.tankround.instruments;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.chemistry.SalinityScale;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.UnitConversions;
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

    private record Known(InstrumentView instrument, InstrumentState state, CalibrationHistory history) {

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
     * One to use instead of another.
     *
     * @param checked where its last check looked, on its own scale; empty for a kit that is taken at its word
     * @param covers whether that reaches as far as what it is to measure
     */
    public record Instead(InstrumentView instrument, Optional<CalibrationHistory.Span> checked, boolean covers) {}

    /**
     * One of the same quantity to use instead: checked where it is to be used, on the same scale, of the same kind, and in the
     * hands of whoever asks, if there is one; empty if none can be trusted.
     *
     * @param used what it is to measure, on the scale of {@code instrument}; empty if nobody knows
     */
    public Optional<Instead> insteadOf(InstrumentView instrument, List<Double> used) {
        return insteadOf(instrument, used, known().toList());
    }

    private Stream<Known> known() {
        Instant now = clock.instant();
        return histories.all().values().stream()
                .map(history ->
                        new Known(history.instrument(), InstrumentState.of(history, now, businessDay.of(now)), history))
                .filter(each -> !each.state().code().equals("RETIRED"))
                .sorted(Comparator.comparing((Known each) -> !each.usable())
                        .thenComparing(Known::decidesNothing)
                        .thenComparing(each -> each.instrument().code()));
    }

    private Optional<Instead> insteadOf(InstrumentView instrument, List<Double> used, List<Known> known) {
        Quantity quantity = instrument.quantity();
        Optional<PersonId> asking = currentPerson.id();
        return known.stream()
                .filter(Known::usable)
                .filter(other -> other.instrument().quantity() == quantity
                        && !other.instrument().id().equals(instrument.id()))
                .map(other -> new Instead(
                        other.instrument(),
                        other.history().checkedSpanAt(Instant.MAX),
                        used.stream().allMatch(value -> covers(other.history(), instrument, value))))
                .min(Comparator.comparing((Instead other) -> !other.covers())
                        .thenComparing(other -> !onOneScale(instrument, other.instrument()))
                        .thenComparing(other -> other.instrument().kind() != instrument.kind())
                        .thenComparing(other ->
                                asking.isEmpty() || !other.instrument().holder().equals(asking)));
    }

    /** Whether one was checked where a value of another's scale lies. */
    private static boolean covers(CalibrationHistory other, InstrumentView instrument, double value) {
        Optional<CalibrationHistory.Span> checked = other.checkedSpanAt(Instant.MAX);
        if (checked.isEmpty()) {
            return true;
        }
        double permitted = other.facts().permittedError();
        return onScaleOf(other.instrument(), instrument, value)
                .filter(there -> there >= checked.get().low() - permitted
                        && there <= checked.get().high() + permitted)
                .isPresent();
    }

    private static Optional<Double> onScaleOf(InstrumentView other, InstrumentView instrument, double value) {
        try {
            SalinityScale scale = InstrumentScale.scale(instrument);
            return Optional.of(
                    scale.showsSalinity()
                            ? InstrumentScale.scale(other)
                                    .readingIn(Salinity.ofPractical(
                                            scale.toSalinity(value).value()))
                            : UnitConversions.convert(value, instrument.unit(), other.unit()));
        } catch (OutOfRangeException beyondScale) {
            return Optional.empty();
        }
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
        return insteadOf(instrument, List.of(), known)
                .map(other -> messages.getMessage(
                        "instruments.choice.instead",
                        new Object[] {name, state, other.instrument().code()},
                        locale))
                .orElseGet(() -> messages.getMessage("instruments.choice.state", new Object[] {name, state}, locale));
    }
}
