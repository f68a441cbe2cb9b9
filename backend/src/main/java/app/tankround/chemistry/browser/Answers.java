package app.tankround.chemistry.browser;

import app.tankround.chemistry.Acclimation;
import app.tankround.chemistry.Computed;
import app.tankround.chemistry.CorrectedReading;
import app.tankround.chemistry.CorrectivePlan;
import app.tankround.chemistry.InstrumentComparison;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.Judgement;
import app.tankround.chemistry.PlainValue;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.ReadingVerdict;
import app.tankround.chemistry.Reason;
import app.tankround.chemistry.SalinityVerdict;
import app.tankround.chemistry.SaltWater;
import app.tankround.chemistry.ShownReading;
import app.tankround.chemistry.Surprise;
import app.tankround.chemistry.Target;
import app.tankround.chemistry.TypedReading;
import app.tankround.chemistry.UncertaintyBudget;
import app.tankround.units.TypedNumber;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.teavm.jso.JSObject;

/** Makes plain JavaScript objects from results, of the shape the records' JSON has. */
final class Answers {

    private Answers() {}

    static JSObject of(Computed computed) {
        JSObject object = Json.object();
        Json.put(object, "value", computed.value());
        Json.put(object, "expandedUncertainty", computed.expandedUncertainty());
        Json.put(object, "extrapolated", computed.extrapolated());
        return object;
    }

    static JSObject of(SalinityVerdict verdict, JSObject reading, JSObject target) {
        JSObject object = Json.object();
        Json.put(object, "ruleVersion", verdict.ruleVersion());
        Json.put(object, "reading", reading);
        Json.put(object, "target", target);
        Json.put(object, "correctedValue", verdict.correctedValue());
        Json.put(object, "correctedUncertainty", verdict.correctedUncertainty());
        Json.put(object, "budget", of(verdict.budget()));
        Json.put(object, "movement", verdict.movement().name());
        put(object, "salinity", verdict.salinity());
        put(object, "salinityUncertainty", verdict.salinityUncertainty());
        put(object, "salinityAsRead", verdict.salinityAsRead());
        Json.put(object, "extrapolated", verdict.extrapolated());
        Json.put(object, "judgement", of(verdict.judgement()));
        Json.put(object, "verdictAsRead", verdict.verdictAsRead().name());
        Json.put(object, "status", verdict.status().name());
        Json.put(object, "doubtful", verdict.doubtful());
        Json.put(object, "trusted", verdict.trusted());
        Json.put(object, "checkIds", texts(verdict.checkIds()));
        Json.put(object, "reasons", reasons(verdict.reasons()));
        return object;
    }

    static JSObject of(CorrectedReading corrected) {
        JSObject object = Json.object();
        Json.put(object, "asRead", corrected.asRead());
        Json.put(object, "value", corrected.value());
        Json.put(object, "error", corrected.error());
        Json.put(object, "standardUncertainty", corrected.standardUncertainty());
        Json.put(object, "budget", of(corrected.budget()));
        Json.put(object, "movement", corrected.movement().name());
        Json.put(object, "correctable", corrected.correctable());
        Json.put(object, "status", corrected.status().name());
        Json.put(object, "doubtful", corrected.doubtful());
        Json.put(object, "checkIds", texts(corrected.checkIds()));
        Json.put(object, "reasons", reasons(corrected.reasons()));
        return object;
    }

    static JSObject of(ReadingVerdict verdict, ShownReading reading) {
        JSObject object = Json.object();
        Json.put(object, "verdict", verdict.verdict().name());
        Json.put(object, "verdictAsRead", verdict.verdictAsRead().name());
        InstrumentStatus status = verdict.status();
        if (status != null) {
            Json.put(object, "status", status.name());
        }
        Json.put(object, "trusted", verdict.trusted());
        Json.put(object, "doubtful", verdict.doubtful());
        put(object, "corrected", verdict.correctedValue());
        put(object, "uncertainty", verdict.uncertainty());
        put(object, "salinity", verdict.salinity());
        put(object, "salinityUncertainty", verdict.salinityUncertainty());
        put(
                object,
                "plain",
                PlainValue.of(reading.quantity(), reading.unit(), verdict.correctedValue(), verdict.salinity()));
        Json.put(object, "reasons", reasons(verdict.reasons()));
        Json.put(object, "checkIds", texts(verdict.checkIds()));
        Json.put(object, "target", of(verdict.target()));
        Judgement judgement = verdict.judgement();
        if (judgement != null) {
            Json.put(object, "judgement", of(judgement));
        }
        UncertaintyBudget budget = verdict.budget();
        if (budget != null) {
            Json.put(object, "budget", of(budget));
        }
        Json.put(object, "ruleVersion", verdict.ruleVersion());
        Json.put(object, "endangers", RangeVerdict.endangers(reading.quantity(), verdict.verdict()));
        Json.put(object, "asksBeforeLeaving", verdict.asksBeforeLeaving(reading.quantity()));
        Json.put(object, "tellsOfNoDanger", verdict.tellsOfNoDanger(reading));
        return object;
    }

    static JSObject of(TypedNumber typed) {
        JSObject object = Json.object();
        String refusal = typed.refusal();
        if (refusal == null) {
            Json.put(object, "value", typed.value());
            Json.put(object, "decimals", typed.decimals());
        } else {
            Json.put(object, "refusal", refusal);
        }
        return object;
    }

    static JSObject of(TypedReading.Asked asked) {
        JSObject object = Json.object();
        Json.put(object, "field", asked.field());
        Json.put(object, "code", asked.code());
        Json.put(object, "args", texts(asked.args()));
        return object;
    }

    static JSObject of(Surprise surprise) {
        JSObject object = Json.object();
        Json.put(object, "last", surprise.last());
        Json.put(object, "days", surprise.days());
        Json.put(object, "movement", surprise.movement());
        Json.put(object, "methods", surprise.methods());
        put(object, "planned", surprise.planned());
        put(object, "lowest", surprise.lowest());
        put(object, "highest", surprise.highest());
        return object;
    }

    static JSObject of(InstrumentComparison comparison) {
        List<String> grounds = new ArrayList<>();
        comparison.grounds().forEach(ground -> grounds.add(ground.name()));
        List<String> next = new ArrayList<>();
        comparison.next().forEach(step -> next.add(step.name()));
        JSObject object = Json.object();
        Json.put(object, "normalizedError", comparison.normalizedError());
        Json.put(object, "agree", comparison.agree());
        Json.put(object, "likelierWrong", comparison.likelierWrong().name());
        Json.put(object, "grounds", texts(grounds));
        Json.put(object, "next", texts(next));
        return object;
    }

    static JSObject steps(List<CorrectivePlan.Step> steps) {
        JSObject array = Json.array();
        for (CorrectivePlan.Step step : steps) {
            JSObject entry = Json.object();
            Json.put(entry, "visit", step.visit());
            Json.put(entry, "after", step.after());
            Json.add(array, entry);
        }
        return array;
    }

    private static JSObject of(Target target) {
        JSObject object = Json.object();
        put(object, "low", target.low());
        put(object, "high", target.high());
        return object;
    }

    static JSObject texts(List<String> texts) {
        JSObject array = Json.array();
        for (String text : texts) {
            Json.add(array, text);
        }
        return array;
    }

    private static JSObject reasons(List<Reason> reasons) {
        JSObject array = Json.array();
        for (Reason reason : reasons) {
            JSObject entry = Json.object();
            Json.put(entry, "code", reason.code().name());
            Json.put(entry, "argument", reason.argument());
            Json.add(array, entry);
        }
        return array;
    }

    private static JSObject of(UncertaintyBudget budget) {
        JSObject lines = Json.array();
        for (UncertaintyBudget.Line line : budget.lines()) {
            JSObject entry = Json.object();
            Json.put(entry, "source", line.source().name());
            Json.put(entry, "standardUncertainty", line.standardUncertainty());
            Json.put(entry, "share", line.share());
            Json.add(lines, entry);
        }
        JSObject object = Json.object();
        Json.put(object, "lines", lines);
        return object;
    }

    private static JSObject of(Judgement judgement) {
        JSObject object = Json.object();
        Json.put(object, "decisionRule", judgement.decisionRule().name());
        Json.put(object, "below", judgement.below());
        Json.put(object, "inside", judgement.inside());
        Json.put(object, "above", judgement.above());
        Json.put(object, "verdict", judgement.verdict().name());
        return object;
    }

    static JSObject of(RangeVerdict verdict, JSObject target) {
        JSObject object = Json.object();
        Json.put(object, "target", target);
        Judgement judgement = verdict.judgement();
        if (judgement == null) {
            Json.putNull(object, "judgement");
        } else {
            Json.put(object, "judgement", of(judgement));
        }
        Json.put(object, "decisionRule", verdict.decisionRule().name());
        Json.put(object, "verdict", verdict.verdict().name());
        Json.put(object, "repeatBeforeLeaving", verdict.repeatBeforeLeaving());
        return object;
    }

    static JSObject of(SaltWater.Batch batch) {
        JSObject object = Json.object();
        Json.put(object, "litres", batch.volume().litres());
        Json.put(object, "salinity", batch.salinity().practical());
        Json.put(object, "seawaterKilograms", batch.seawater().kilograms());
        Json.put(object, "anhydrousSaltKilograms", batch.anhydrousSalt().kilograms());
        Json.put(object, "productKilograms", batch.product().kilograms());
        Json.put(object, "waterLitres", batch.water().litres());
        return object;
    }

    static JSObject of(Acclimation.Plan plan) {
        JSObject object = Json.object();
        Json.put(object, "way", plan.way().name());
        Json.put(object, "floatMinutes", plan.floatMinutes());
        Json.put(object, "dripMinutes", plan.dripMinutes());
        Json.put(object, "added", plan.added());
        Json.put(object, "millilitresPerMinute", plan.millilitresPerMinute());
        Json.put(object, "dropsPerSecond", plan.dropsPerSecond());
        Json.put(object, "pourOffs", plan.pourOffs());
        Json.put(object, "reachedSalinity", plan.reachedSalinity());
        put(object, "ammoniaBefore", plan.ammoniaBefore());
        put(object, "ammoniaAfter", plan.ammoniaAfter());
        return object;
    }

    private static void put(JSObject object, String name, @Nullable Double value) {
        if (value == null) {
            Json.putNull(object, name);
        } else {
            Json.put(object, name, value.doubleValue());
        }
    }
}
