package app.tankround.web;

import java.util.Map;

/**
 * What became of an entry: a status, and a code with arguments that the page turns into words.
 *
 * @param args JSON-friendly values only
 */
public record EntryAnswer(Status status, String code, Map<String, ?> args) {

    public enum Status {
        APPLIED,
        CONFLICT,
        REFUSED,
        WAITING
    }

    public static EntryAnswer applied(String code, Map<String, ?> args) {
        return new EntryAnswer(Status.APPLIED, code, args);
    }

    public static EntryAnswer applied() {
        return applied("ok", Map.of());
    }

    /** The value was changed by somebody else meanwhile: both are kept, nothing is merged. */
    public static EntryAnswer conflict(String code, Map<String, ?> args) {
        return new EntryAnswer(Status.CONFLICT, code, args);
    }

    public static EntryAnswer refused(String code, Map<String, ?> args) {
        return new EntryAnswer(Status.REFUSED, code, args);
    }

    /** Kept, but not complete before its photo has arrived. */
    public static EntryAnswer waiting(String code, Map<String, ?> args) {
        return new EntryAnswer(Status.WAITING, code, args);
    }
}
