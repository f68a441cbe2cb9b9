package app.tankround.loads;

import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.PlanView;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopView;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskView;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposals;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** For what a load is needed, stop by stop, and where each task comes from. */
@Service
@Transactional(readOnly = true)
public class DemandSources {

    private final RoundService rounds;
    private final DueVisits dueVisits;
    private final Agreements agreements;
    private final WorkProposals proposals;
    private final CorrectivePlans plans;
    private final WaterSystems systems;

    DemandSources(
            RoundService rounds,
            DueVisits dueVisits,
            Agreements agreements,
            WorkProposals proposals,
            CorrectivePlans plans,
            WaterSystems systems) {
        this.rounds = rounds;
        this.dueVisits = dueVisits;
        this.agreements = agreements;
        this.proposals = proposals;
        this.plans = plans;
        this.systems = systems;
    }

    /** What is done at a stop. */
    public record AtStop(int position, String siteName, List<Demand> demands) {}

    /**
     * A task.
     *
     * @param page where its source is opened
     */
    public record Demand(WaterSystemView system, TaskView task, Source source, String name, String page) {}

    /** Where a task comes from. */
    public enum Source {
        AGREEMENT,
        PLAN,
        PROPOSAL,
        /** What was decided so that the van carries less. */
        REMEDY
    }

    /** @throws app.tankround.web.NotFound if there is no such round */
    public List<AtStop> of(RoundId id) {
        RoundView round = rounds.require(id);
        Set<PlannedVisitId> ids = round.stops().stream()
                .flatMap(stop -> stop.plannedVisits().stream())
                .collect(Collectors.toSet());
        Map<PlannedVisitId, PlannedVisitView> visits =
                dueVisits.find(ids).stream().collect(Collectors.toMap(PlannedVisitView::id, Function.identity()));
        Map<PlannedVisitId, List<WorkProposals.Added>> added =
                proposals.addedTo(ids).stream().collect(Collectors.groupingBy(WorkProposals.Added::visit));
        Map<WaterSystemId, WaterSystemView> known = systems.find(
                visits.values().stream().map(PlannedVisitView::waterSystemId).collect(Collectors.toSet()));
        return round.stops().stream()
                .map(stop -> new AtStop(
                        stop.position(),
                        stop.siteName(),
                        at(stop, visits).stream()
                                .flatMap(visit -> demands(
                                        round,
                                        visit,
                                        Objects.requireNonNull(known.get(visit.waterSystemId())),
                                        added.getOrDefault(visit.id(), List.of()))
                                        .stream())
                                .toList()))
                .toList();
    }

    private static List<PlannedVisitView> at(StopView stop, Map<PlannedVisitId, PlannedVisitView> visits) {
        return stop.plannedVisits().stream()
                .flatMap(id -> Optional.ofNullable(visits.get(id)).stream())
                .toList();
    }

    /** The agreed tasks come first, then what was added. */
    private List<Demand> demands(
            RoundView round, PlannedVisitView visit, WaterSystemView system, List<WorkProposals.Added> added) {
        int agreed = visit.tasks().size()
                - added.stream()
                        .map(WorkProposals.Added::tasks)
                        .mapToInt(Collection::size)
                        .sum();
        List<Demand> demands = new ArrayList<>();
        String code = agreements.require(visit.agreementId()).code();
        visit.tasks().stream()
                .limit(Math.max(0, agreed))
                .map(task -> new Demand(system, task, Source.AGREEMENT, code, "/agreements/" + visit.agreementId()))
                .forEach(demands::add);
        added.forEach(each -> each.tasks().forEach(task -> demands.add(added(round, system, each, task))));
        return demands;
    }

    private Demand added(RoundView round, WaterSystemView system, WorkProposals.Added added, TaskView task) {
        Optional<WorkProposal> work = added.work();
        if (work.isPresent()) {
            return new Demand(
                    system,
                    task,
                    Source.PROPOSAL,
                    work.get().source().name(),
                    work.get().page().orElse("/proposals"));
        }
        Optional<PlanView> plan = plans.bySystem(system.id()).stream()
                .filter(each -> each.id().value().equals(added.proposer()))
                .findFirst();
        return plan.map(each -> new Demand(system, task, Source.PLAN, "", "/plans/" + each.id()))
                .orElseGet(() -> new Demand(system, task, Source.REMEDY, "", "/rounds/" + round.id() + "/remedies"));
    }
}
