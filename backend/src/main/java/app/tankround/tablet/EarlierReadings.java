package app.tankround.tablet;

import app.tankround.accounts.Days;
import app.tankround.chemistry.Surprise;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.PlanState;
import app.tankround.plans.PlanView;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Component;

/** What a reading of today is held against, to see whether it surprises: the trusted ones before it, and the plan since. */
@Component
class EarlierReadings {

    /** So many tell how far the water of a system moves between two visits; common practice, no source. */
    private static final int MOST = 6;

    private final CorrectivePlans plans;
    private final VerdictWords words;

    EarlierReadings(CorrectivePlans plans, VerdictWords words) {
        this.plans = plans;
        this.words = words;
    }

    /** Where the plans that are followed were to bring a system, by quantity. */
    List<PlanView> running(WaterSystemId system) {
        return plans.bySystem(system).stream()
                .filter(plan -> plan.state() == PlanState.RUNNING)
                .toList();
    }

    /**
     * By sample point, "" for none: the readings as {@link Surprise} takes them, how the last of them is written, and to where
     * a plan was to bring the water since.
     *
     * @param taken of the system, oldest first, before today's visit
     */
    Map<String, Object> of(
            Quantity quantity,
            List<ReadingView> taken,
            List<PlanView> running,
            LocalDate today,
            ZoneId zone,
            Locale locale) {
        if (!Surprise.follows(quantity)) {
            return Map.of();
        }
        Map<String, List<ReadingView>> byPoint = new LinkedHashMap<>();
        taken.stream()
                .filter(reading ->
                        reading.quantity() == quantity && measured(reading).isPresent())
                .forEach(reading -> byPoint.computeIfAbsent(
                                reading.samplePointId().map(Object::toString).orElse(""), point -> new ArrayList<>())
                        .add(reading));
        Map<String, Object> json = new LinkedHashMap<>();
        byPoint.forEach((point, readings) -> {
            List<ReadingView> newest = readings.subList(Math.max(0, readings.size() - MOST), readings.size());
            ReadingView last = newest.getLast();
            LocalDate day = LocalDate.ofInstant(last.takenAt(), zone);
            Map<String, Object> each = new LinkedHashMap<>();
            each.put(
                    "readings",
                    newest.stream()
                            .map(EarlierReadings::measured)
                            .flatMap(Optional::stream)
                            .map(EarlierReadings::json)
                            .toList());
            each.put("asWritten", words.asWritten(last, locale));
            each.put("on", Days.day(day, locale));
            running.stream()
                    .filter(plan -> plan.quantity() == quantity)
                    .flatMap(plan -> plan.steps().stream())
                    .filter(step -> !step.on().isBefore(day) && step.on().isBefore(today))
                    .reduce((one, later) -> later)
                    .ifPresent(step -> each.put("planned", step.after()));
            json.put(point, each);
        });
        return json;
    }

    private static Map<String, Object> json(Surprise.Measured measured) {
        return Map.of(
                "value",
                measured.value(),
                "uncertainty",
                measured.expandedUncertainty(),
                "atEpochMilli",
                measured.atEpochMilli());
    }

    /** A reading that counts, with a number; empty for another. */
    private static Optional<Surprise.Measured> measured(ReadingView reading) {
        AssessmentView assessment = reading.assessment();
        long at = reading.takenAt().toEpochMilli();
        if (!assessment.trusted() || assessment.doubtful()) {
            return Optional.empty();
        }
        if (reading.quantity() == Quantity.SALINITY) {
            return assessment
                    .salinity()
                    .flatMap(value -> assessment
                            .salinityUncertainty()
                            .map(uncertainty -> new Surprise.Measured(value, uncertainty, at)));
        }
        return assessment
                .correctedValue()
                .flatMap(value -> assessment
                        .uncertainty()
                        .map(uncertainty ->
                                Surprise.Measured.of(reading.quantity(), reading.unit(), value, uncertainty, at)));
    }
}
