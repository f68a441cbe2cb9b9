package app.tankround.plans;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.CorrectivePlan.Carry;
import app.tankround.chemistry.VerdictCode;
import app.tankround.plans.PlanView.PlanStep;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.ReadingView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * The way of a salinity back to its target, as the visit page, the client's report and the page of a plan all tell it. Where
 * there is a plan its steps to come are the way; where there is none, the steps that a plan for the agreed visits after that
 * day would have, within the same safe rates.
 */
@Service
@Transactional(readOnly = true)
public class SalinityRamps {

    private final PlanRows rows;
    private final PlanBasis basis;
    private final PlanVisits visits;
    private final PlanMaking making;
    private final SafeRates rates;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final BusinessProfile business;

    SalinityRamps(
            PlanRows rows,
            PlanBasis basis,
            PlanVisits visits,
            PlanMaking making,
            SafeRates rates,
            DueVisits dueVisits,
            WaterSystems systems,
            BusinessProfile business) {
        this.rows = rows;
        this.basis = basis;
        this.visits = visits;
        this.making = making;
        this.rates = rates;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.business = business;
    }

    /**
     * The steps to come, for a reading of salinity whose instrument was wrong for certain. At the visit itself the new water
     * is matched; without a plan the first step is that of the next one.
     *
     * @param day of the visit; no step lies before it
     * @return empty where the instrument is only suspect, the water may well be inside its target, no visit is agreed or
     *     nobody has set a safe rate
     */
    public List<PlanStep> of(ReadingView reading, LocalDate day) {
        AssessmentView assessment = reading.assessment();
        boolean wrong = assessment.says("READS_LOW_BY") || assessment.says("READS_HIGH_BY");
        if (reading.quantity() != Quantity.SALINITY || assessment.trusted() || assessment.isBySuspect() || !wrong) {
            return List.of();
        }
        Optional<PlanView> plan = rows.openOn(reading.systemId(), Quantity.SALINITY);
        if (plan.isPresent()) {
            return toCome(plan.get(), day);
        }
        ReadingView newest = Optional.ofNullable(
                        basis.newest(reading.systemId()).get(Quantity.SALINITY))
                .filter(later -> later.takenAt().isAfter(reading.takenAt()) && PlanBasis.believed(later))
                .orElse(reading);
        VerdictCode verdict = newest.assessment().verdict();
        boolean outside = verdict == VerdictCode.ABOVE || verdict == VerdictCode.BELOW;
        Optional<Double> real = newest.assessment().salinity();
        return real.filter(from -> outside && !basis.readOverLowSump(newest))
                .map(from -> drawn(reading, from, day))
                .orElse(List.of());
    }

    /**
     * What a device takes along to tell the same way without a connection.
     *
     * @param plan the steps to come, where there is a plan; then the rest is not asked
     * @param raising how much a day may raise; empty where nobody has said so
     * @param lowering likewise
     * @param days from that day to the agreed visits after it
     * @param agreed litres that are changed at each of them anyway
     */
    public record Way(
            Optional<List<PlanStep>> plan,
            Optional<Double> to,
            Optional<Double> raising,
            Optional<Double> lowering,
            double litres,
            double celsius,
            double saltYield,
            double carryLitres,
            double carryKilograms,
            List<PlannedVisitView> visits,
            List<Integer> days,
            List<Double> agreed) {}

    /** The way of a system's salinity as far as it is known before anybody has measured it that day. */
    public Way way(WaterSystemView system, LocalDate day) {
        SafeRateView safe = rates.of(system.id(), Quantity.SALINITY);
        Carry carry = making.usualCarry(system.id());
        List<PlannedVisitView> after = after(system, day);
        return new Way(
                rows.openOn(system.id(), Quantity.SALINITY).map(plan -> toCome(plan, day)),
                making.middleOfTarget(system.id(), Quantity.SALINITY),
                safe.raising(),
                safe.lowering(),
                system.netVolume().litres(),
                basis.believed(system.id()).getOrDefault(Quantity.TEMPERATURE, PlanDrawing.USUAL_CELSIUS),
                business.current().saltYield(),
                carry.water().litres(),
                carry.mass().kilograms(),
                after,
                after.stream()
                        .map(visit -> (int) ChronoUnit.DAYS.between(day, visit.dueOn()))
                        .toList(),
                after.stream()
                        .map(visit -> PlanVisits.changedLitres(visit, system))
                        .toList());
    }

    private List<PlannedVisitView> after(WaterSystemView system, LocalDate day) {
        return visits.free(system.id(), Quantity.SALINITY).stream()
                .filter(visit -> visit.dueOn().isAfter(day))
                .toList();
    }

    private List<PlanStep> toCome(PlanView plan, LocalDate day) {
        Set<PlannedVisitId> due = dueVisits.dueFor(plan.systemId()).stream()
                .map(PlannedVisitView::id)
                .collect(Collectors.toSet());
        return plan.steps().stream()
                .filter(step -> !step.on().isBefore(day) && due.contains(step.visit()))
                .toList();
    }

    private List<PlanStep> drawn(ReadingView reading, double from, LocalDate day) {
        WaterSystemView system = systems.require(reading.systemId());
        Optional<Double> target = making.middleOfTarget(system.id(), Quantity.SALINITY);
        Optional<Double> perDay =
                target.flatMap(to -> rates.of(system.id(), Quantity.SALINITY).towards(from, to));
        if (perDay.isEmpty()) {
            return List.of();
        }
        Carry carry = making.usualCarry(system.id());
        PlanDrawing.Terms terms = new PlanDrawing.Terms(
                system,
                Quantity.SALINITY,
                target.orElseThrow(),
                perDay.get(),
                Optional.empty(),
                1,
                0,
                0,
                0,
                carry.water().litres(),
                carry.mass().kilograms(),
                business.current().saltYield(),
                basis.believed(system.id()),
                basis.ammonia(system.id()),
                visit -> DailyRise.Agreed.NOTHING);
        try {
            return PlanDrawing.draw(terms, from, day, after(system, day), day.plusDays(1))
                    .steps();
        } catch (OutOfRangeException unreachable) {
            return List.of();
        }
    }
}
