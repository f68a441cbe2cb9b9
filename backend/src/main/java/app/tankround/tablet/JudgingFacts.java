package app.tankround.tablet;

import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.StatedTarget;
import app.tankround.chemistry.Target;
import app.tankround.chemistry.VerdictCode;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.TargetView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.visits.ReadingAnswers;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.springframework.stereotype.Component;

/** What a tablet needs besides the instruments, so that it judges a reading without a connection as the server would. */
@Component
class JudgingFacts {

    private static final List<VerdictCode> ASKING =
            List.of(VerdictCode.ABOVE, VerdictCode.BELOW, VerdictCode.UNDECIDED);

    private final WaterSystems systems;
    private final ReadingService readings;
    private final ReadingAnswers answers;

    JudgingFacts(WaterSystems systems, ReadingService readings, ReadingAnswers answers) {
        this.systems = systems;
        this.readings = readings;
        this.answers = answers;
    }

    /**
     * Of each quantity: the target of the system and those of sample points by their ids, the limit beyond which animals are
     * in danger, and what is done first, by the verdict; absent ones left out.
     */
    Map<Quantity, Map<String, Object>> of(
            WaterSystemView system, Map<Quantity, TargetView> targets, Set<Quantity> quantities, Locale locale) {
        Map<SamplePointId, Map<Quantity, TargetView>> ofPoints = systems.pointTargets(Set.of(system.id()));
        Map<Quantity, Map<String, Object>> facts = new LinkedHashMap<>();
        for (Quantity quantity : quantities) {
            Map<String, Object> json = new LinkedHashMap<>();
            TargetView own = targets.get(quantity);
            if (own != null) {
                json.put("target", stated(own));
            }
            Map<String, Object> points = new LinkedHashMap<>();
            ofPoints.forEach((point, each) -> {
                TargetView target = each.get(quantity);
                if (target != null) {
                    points.put(point.toString(), stated(target));
                }
            });
            json.put("pointTargets", points);
            Target danger = readings.dangerLimit(system, quantity);
            if (danger != null) {
                json.put("danger", limits(danger));
            }
            if (RangeVerdict.kills(quantity)) {
                Map<String, Object> plans = new LinkedHashMap<>();
                ASKING.forEach(verdict -> plans.put(verdict.name(), answers.plan(system, quantity, verdict, locale)));
                json.put("plans", plans);
            }
            facts.put(quantity, json);
        }
        return facts;
    }

    private static Map<String, Object> stated(TargetView target) {
        StatedTarget stated = target.asFormula();
        Map<String, Object> json = limits(stated.limits());
        json.put("unit", stated.unit().code());
        target.gravityReference().ifPresent(reference -> json.put("gravityReference", reference));
        return json;
    }

    private static Map<String, Object> limits(Target target) {
        Map<String, Object> json = new LinkedHashMap<>();
        if (target.low() != null) {
            json.put("low", Objects.requireNonNull(target.low()));
        }
        if (target.high() != null) {
            json.put("high", Objects.requireNonNull(target.high()));
        }
        return json;
    }
}
