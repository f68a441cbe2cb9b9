package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.readings.DoubtListView;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.ReadingView;
import app.tankround.readings.RetestMatter;
import app.tankround.readings.VerdictWords;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposal.Source;
import app.tankround.schedule.WorkSource;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/**
 * What is measured again: whatever kills and was read beyond its limit or too close to it, and the newest readings that rest
 * on an instrument alone that is suspect or condemned. A reading by a trusted one settles both.
 */
@Component
@Order(2)
class RetestWork implements WorkSource {

    /** What kills waits no longer than this; common practice, no source. */
    private static final int DAYS_IF_DEADLY = 1;

    private static final int DAYS = 7;
    private static final int MINUTES = 10;

    private final Followups followups;
    private final DoubtLists doubts;
    private final InstrumentRegister instruments;
    private final WaterSystems systems;
    private final VerdictWords words;
    private final BusinessProfile business;
    private final MessageSource messages;

    RetestWork(
            Followups followups,
            DoubtLists doubts,
            InstrumentRegister instruments,
            WaterSystems systems,
            VerdictWords words,
            BusinessProfile business,
            MessageSource messages) {
        this.followups = followups;
        this.doubts = doubts;
        this.instruments = instruments;
        this.systems = systems;
        this.words = words;
        this.business = business;
        this.messages = messages;
    }

    @Override
    public List<WorkProposal> waiting() {
        return Stream.of(asked(), suspected(), condemned())
                .flatMap(each -> each)
                .filter(work -> systems.find(work.system())
                        .filter(WaterSystemView::active)
                        .isPresent())
                .toList();
    }

    private Stream<WorkProposal> asked() {
        return followups.open().stream()
                .flatMap(matter -> RetestMatter.of(matter.topic()).stream()
                        .map(again -> again(again.system(), again.quantity(), matter)));
    }

    private WorkProposal again(WaterSystemId system, Quantity quantity, FollowupView matter) {
        return work(system, quantity, "visits.work.retest.asked", "", matter.openedAt(), matter.page(), true);
    }

    private Stream<WorkProposal> suspected() {
        return doubts.suspects().stream()
                .flatMap(suspect -> suspect.measureToday().stream()
                        .map(reading -> doubted(
                                reading,
                                "visits.work.retest.suspect",
                                suspect.instrument().code(),
                                suspect.suspicion().openedAt(),
                                "/doubts",
                                true)));
    }

    private Stream<WorkProposal> condemned() {
        return doubts.all().stream()
                .filter(DoubtListView::isOpen)
                .flatMap(list ->
                        doubts.notMeasuredAgain(list.instrumentId(), list.from().orElse(Instant.EPOCH)).stream()
                                .map(reading -> doubted(
                                        reading,
                                        "visits.work.retest.condemned",
                                        instruments.require(list.instrumentId()).code(),
                                        list.madeAt(),
                                        "/doubts/" + list.id(),
                                        RangeVerdict.kills(reading.quantity()))));
    }

    private WorkProposal doubted(
            ReadingView reading, String code, String instrument, Instant since, String page, boolean deadly) {
        return work(reading.systemId(), reading.quantity(), code, instrument, since, page, deadly);
    }

    private WorkProposal work(
            WaterSystemId system,
            Quantity quantity,
            String code,
            String instrument,
            Instant since,
            String page,
            boolean deadly) {
        BusinessSettings settings = business.current();
        Locale locale = settings.locale();
        LocalDate first = LocalDate.ofInstant(since, settings.zone());
        return WorkProposal.of(
                        "retest " + system + " " + quantity,
                        page,
                        system,
                        Source.RETEST,
                        messages.getMessage(code, new Object[] {words.quantity(quantity, locale), instrument}, locale),
                        first,
                        first.plusDays(deadly ? DAYS_IF_DEADLY : DAYS),
                        MINUTES)
                .measuring(quantity);
    }
}
