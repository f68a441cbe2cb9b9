package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.clients.SiteId;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposal.Source;
import app.tankround.schedule.WorkSource;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.visits.VisitView.DepartureLine;
import app.tankround.visits.VisitView.Running;
import app.tankround.visits.VisitView.RunningState;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/**
 * What was left off on purpose and is to be put back, and what was not in order at the check before leaving. The first is
 * settled with its matter, the second once the same line is answered otherwise at a later visit to the site.
 */
@Component
@Order(3)
class LeftBehindWork implements WorkSource {

    /** Somebody is there at most so long before the time that was said; own choice. */
    private static final int DAYS_BEFORE = 1;

    /** What animals live on, within this time; common practice, no source. */
    private static final int DAYS_FOR_ANIMALS = 2;

    /** The residual-current device, within this time; common practice, no source. */
    private static final int DAYS_FOR_THE_REST = 7;

    private static final int MINUTES = 15;

    private final VisitRows rows;
    private final WaterSystems systems;
    private final Followups followups;
    private final RunningWords words;
    private final BusinessProfile business;
    private final MessageSource messages;
    private final Clock clock;

    LeftBehindWork(
            VisitRows rows,
            WaterSystems systems,
            Followups followups,
            RunningWords words,
            BusinessProfile business,
            MessageSource messages,
            Clock clock) {
        this.rows = rows;
        this.systems = systems;
        this.followups = followups;
        this.words = words;
        this.business = business;
        this.messages = messages;
        this.clock = clock;
    }

    @Override
    public List<WorkProposal> waiting() {
        Instant since = clock.instant().minus(RunningEntries.REMEMBERED);
        return Stream.concat(leftSo(since), notInOrder(since)).toList();
    }

    private Stream<WorkProposal> leftSo(Instant since) {
        List<VisitEntry> left = rows.lastSaid(RunningEntries.KIND, since).stream()
                .filter(entry -> VisitProjection.running(entry).state() == RunningState.LEFT)
                .toList();
        if (left.isEmpty()) {
            return Stream.empty();
        }
        Set<String> open = followups.open().stream().map(FollowupView::topic).collect(Collectors.toSet());
        return left.stream()
                .filter(entry -> open.contains(RunningEntries.topic(entry.visitId(), entry.field())))
                .map(this::putBack);
    }

    private WorkProposal putBack(VisitEntry entry) {
        Running running = VisitProjection.running(entry);
        LocalDate left = day(entry.at());
        LocalDate until = day(running.until().orElseThrow());
        LocalDate first = until.minusDays(DAYS_BEFORE);
        return WorkProposal.of(
                RunningEntries.topic(entry.visitId(), entry.field()),
                "/visits/" + entry.visitId(),
                running.systemId(),
                Source.LEFT_BEHIND,
                text(
                        "visits.work.left",
                        text("visits.running." + running.thing()),
                        words.dayAndTime(running.until().get()),
                        running.because().orElse("")),
                first.isBefore(left) ? left : first,
                until,
                MINUTES);
    }

    private Stream<WorkProposal> notInOrder(Instant since) {
        return rows.notInOrder(since).stream().flatMap(entry -> {
            VisitRow visit = rows.find(entry.visitId()).orElseThrow();
            return system(visit.siteId()).stream().map(system -> putInOrder(visit, entry, system));
        });
    }

    private WorkProposal putInOrder(VisitRow visit, VisitEntry entry, WaterSystemView system) {
        DepartureLine line =
                DepartureLine.valueOf(entry.field().substring(entry.field().indexOf('/') + 1));
        LocalDate first = day(entry.at()).plusDays(1);
        return WorkProposal.of(
                "departure " + visit.siteId() + " " + line,
                "/visits/" + visit.id(),
                system.id(),
                Source.LEFT_BEHIND,
                text(
                        "visits.work.departure",
                        text("visits.departure." + line),
                        entry.facts().path("because").asString("")),
                first,
                first.plusDays(line == DepartureLine.RCD_TESTED ? DAYS_FOR_THE_REST : DAYS_FOR_ANIMALS),
                MINUTES);
    }

    /** One of the site's systems, since the check before leaving is of the site. */
    private Optional<WaterSystemView> system(SiteId site) {
        return systems.bySite(site).stream()
                .filter(WaterSystemView::active)
                .min(Comparator.comparing(WaterSystemView::code));
    }

    private LocalDate day(Instant at) {
        return LocalDate.ofInstant(at, business.zone());
    }

    private String text(String code, Object... args) {
        BusinessSettings settings = business.current();
        return messages.getMessage(code, args, settings.locale());
    }
}
