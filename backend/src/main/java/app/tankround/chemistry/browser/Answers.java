package app.tankround.chemistry.browser;

import app.tankround.chemistry.Computed;
import app.tankround.chemistry.Reason;
import app.tankround.chemistry.SalinityVerdict;
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
        put(object, "salinity", verdict.salinity());
        put(object, "salinityUncertainty", verdict.salinityUncertainty());
        put(object, "salinityAsRead", verdict.salinityAsRead());
        Json.put(object, "extrapolated", verdict.extrapolated());
        Json.put(object, "verdict", verdict.verdict().name());
        Json.put(object, "verdictAsRead", verdict.verdictAsRead().name());
        Json.put(object, "status", verdict.status().name());
        Json.put(object, "doubtful", verdict.doubtful());
        Json.put(object, "trusted", verdict.trusted());
        JSObject ids = Json.array();
        for (String id : verdict.checkIds()) {
            Json.add(ids, id);
        }
        Json.put(object, "checkIds", ids);
        JSObject reasons = Json.array();
        for (Reason reason : verdict.reasons()) {
            JSObject entry = Json.object();
            Json.put(entry, "code", reason.code().name());
            Json.put(entry, "argument", reason.argument());
            Json.add(reasons, entry);
        }
        Json.put(object, "reasons", reasons);
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
