package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.CorrectivePlan;
import app.tankround.chemistry.SaltWater;
import app.tankround.chemistry.SaltWater.Water;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.plans.PlanWords;
import app.tankround.plans.SafeRateView;
import app.tankround.plans.SafeRates;
import app.tankround.readings.ReadingView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Component;

/**
 * Holds a change of water against what the system may change in one day, and against how much of its water goes at once.
 * What was changed cannot be refused: with a reason it is written down, and the office hears of it.
 */
@Component
public class WaterChangeGuard {

    /** Both waters are weighed as if they were this warm; the few degrees between them do not matter here. */
    private static final Temperature MIXED_AT = Temperature.ofCelsius(25);

    /** Of a rate or a share: what a bucket's marks and a rounded task may miss by; own choice. */
    private static final double ROUNDING = 1.02;

    private static final Map<Quantity, String> CODES = Map.of(
            Quantity.SALINITY, "visits.water-change.salinity", Quantity.TEMPERATURE, "visits.water-change.temperature");

    /** The place of the reason among the arguments of what was done. */
    private static final int BECAUSE = 5;

    private final SafeRates rates;
    private final SumpsOfVisits sumps;
    private final Followups followups;
    private final BusinessProfile business;

    WaterChangeGuard(SafeRates rates, SumpsOfVisits sumps, Followups followups, BusinessProfile business) {
        this.rates = rates;
        this.sumps = sumps;
        this.followups = followups;
        this.business = business;
    }

    /**
     * A change of water.
     *
     * @param salinity of the new water; empty where nobody measured it
     * @param temperature of the new water, likewise
     */
    record Change(
            WaterSystemView system,
            Volume out,
            Volume in,
            Optional<Salinity> salinity,
            Optional<Temperature> temperature) {

        private double kept() {
            return Math.max(0, system.netVolume().litres() - out.litres());
        }

        private double share() {
            return in.litres() / (kept() + in.litres());
        }
    }

    /** What speaks against a change, as the message of its code. */
    record Against(String code, List<String> args) {

        Against {
            args = List.copyOf(args);
        }

        /** As it is told once the water was changed all the same. */
        Against done(String because) {
            List<String> more = new ArrayList<>(args);
            while (more.size() < BECAUSE) {
                more.add("");
            }
            more.add(because);
            return new Against("visits.followup." + code.substring("visits.".length()), more);
        }
    }

    /** What the visit page needs to say the same before anything is sent, as JSON-friendly values. */
    public Map<String, Object> limits(WaterSystemId system) {
        return Map.of(
                "salinity",
                rate(rates.of(system, Quantity.SALINITY)),
                "temperature",
                rate(rates.of(system, Quantity.TEMPERATURE)),
                "largestShare",
                CorrectivePlan.LARGEST_SHARE,
                "rounding",
                ROUNDING,
                "salinityHoldsMs",
                VisitDesks.SALINITY_HOLDS.toMillis());
    }

    private static Map<String, Object> rate(SafeRateView rate) {
        Map<String, Object> json = new LinkedHashMap<>();
        rate.raising().ifPresent(raising -> json.put("raising", raising));
        rate.lowering().ifPresent(lowering -> json.put("lowering", lowering));
        return json;
    }

    /** What speaks against a change, the worst first; once everything is written. */
    List<Against> against(EntryContext context, Change change) {
        PlanWords words = new PlanWords(business.unitSystem(), context.locale());
        List<Against> found = new ArrayList<>();
        change.salinity()
                .ifPresent(fresh -> salinity(context, change.system())
                        .flatMap(before -> tooFast(
                                context,
                                change,
                                Quantity.SALINITY,
                                before,
                                mixed(change, before, fresh),
                                fresh.practical(),
                                words))
                        .ifPresent(found::add));
        change.temperature()
                .ifPresent(fresh -> temperature(context, change.system())
                        .flatMap(before -> tooFast(
                                context,
                                change,
                                Quantity.TEMPERATURE,
                                before,
                                before + (fresh.celsius() - before) * change.share(),
                                fresh.celsius(),
                                words))
                        .ifPresent(found::add));
        double most = Math.max(
                change.system().netVolume().litres() * CorrectivePlan.LARGEST_SHARE, agreed(context, change.system()));
        if (change.out().litres() > most * ROUNDING) {
            found.add(new Against(
                    "visits.water-change.most",
                    List.of(
                            change.system().name(),
                            words.volume(change.out().litres()),
                            words.volume(change.system().netVolume().litres()))));
        }
        return found;
    }

    private Optional<Against> tooFast(
            EntryContext context,
            Change change,
            Quantity quantity,
            double before,
            double after,
            double fresh,
            PlanWords words) {
        return context.desk()
                .rates()
                .of(change.system().id(), quantity)
                .towards(before, after)
                .filter(rate -> Math.abs(after - before) > rate * ROUNDING)
                .map(rate -> new Against(
                        CODES.get(quantity) + (after > before ? ".raised" : ".lowered"),
                        List.of(
                                change.system().name(),
                                words.value(quantity, before),
                                words.value(quantity, after),
                                words.change(quantity, rate),
                                words.value(quantity, fresh))));
    }

    /** By balance of masses; what is left of the tank's water, and what is put in. */
    private static double mixed(Change change, double before, Salinity fresh) {
        Salinity poured = Salinity.ofPractical(Math.min(fresh.practical(), SeawaterDensity.HIGHEST_SALINITY));
        Salinity tank = Salinity.ofPractical(Math.min(before, SeawaterDensity.HIGHEST_SALINITY));
        return SaltWater.blend(List.of(water(Volume.ofLitres(change.kept()), tank), water(change.in(), poured)))
                .practical();
    }

    private static Water water(Volume volume, Salinity salinity) {
        return new Water(SaltWater.mass(volume, salinity, MIXED_AT), salinity);
    }

    /** The salinity that the water has, as far as anybody knows: what may be believed of this visit, else its best guess. */
    private Optional<Double> salinity(EntryContext context, WaterSystemView system) {
        VisitDesks.Desk desk = context.desk();
        boolean sumpAsked = desk.current(context.visit().id(), SumpsOfVisits.field(system.id()))
                .isPresent();
        List<ReadingView> here = desk.views(context.visit().id(), system.id(), Quantity.SALINITY).stream()
                .filter(reading -> reading.assessment().salinity().isPresent())
                .filter(reading -> !sumpAsked || sumps.low(reading).isEmpty())
                .toList();
        Optional<Double> measured = here.stream()
                .filter(reading -> reading.assessment().decides())
                .reduce((earlier, later) -> later)
                .or(() -> here.stream().reduce((earlier, later) -> later))
                .or(() -> desk.lastSalinityRead(system.id(), context.at()))
                .flatMap(reading -> reading.assessment().salinity());
        return system.kind().isSalt() ? measured : measured.or(() -> Optional.of(0.0));
    }

    /** The temperature at this visit: one of another day says nothing. */
    private static Optional<Double> temperature(EntryContext context, WaterSystemView system) {
        return context.desk().views(context.visit().id(), system.id(), Quantity.TEMPERATURE).stream()
                .flatMap(reading -> ReadingAnswers.plain(reading).stream())
                .reduce((earlier, later) -> later);
    }

    /** Litres that were agreed to be changed at this visit. */
    private static double agreed(EntryContext context, WaterSystemView system) {
        return context.desk().planned(context.visit()).values().stream()
                .filter(due -> due.waterSystemId().equals(system.id()))
                .flatMap(due -> due.tasks().stream())
                .filter(task -> task.kind() == TaskKind.WATER_CHANGE)
                .mapToDouble(task -> litres(task, system))
                .sum();
    }

    private static double litres(TaskView task, WaterSystemView system) {
        double amount = task.amount().map(BigDecimal::doubleValue).orElse(0.0);
        return task.unit().filter("%"::equals).isPresent() ? system.netVolume().litres() * amount / 100 : amount;
    }

    /** Opens a matter of what was changed all the same. */
    void tell(EntryContext context, WaterSystemView system, Against worst, String because) {
        Against done = worst.done(because);
        followups.open(new NewFollowup(
                done.code(),
                done.args(),
                worst.code().startsWith(CODES.get(Quantity.SALINITY)) ? Urgency.NOW : Urgency.TODAY,
                "water-system",
                system.id().value(),
                topic(context, system),
                "/visits/" + context.visit().id()));
    }

    /** What was written down before is told otherwise now. */
    void corrected(EntryContext context, WaterSystemView system) {
        followups.settleTopic(topic(context, system), "visits.water-change.corrected");
    }

    private static String topic(EntryContext context, WaterSystemView system) {
        return "water-change-against:" + context.place("water-change/" + system.id());
    }
}
