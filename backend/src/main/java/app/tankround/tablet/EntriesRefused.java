package app.tankround.tablet;

import app.tankround.web.EntryAnswer;

/** Entries that were to be taken in together hold one that is refused, so none was. */
public final class EntriesRefused extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final transient EntryAnswer answer;

    EntriesRefused(EntryAnswer answer) {
        super(answer.code() + " " + answer.args());
        this.answer = answer;
    }

    /** What the refused entry would have been answered. */
    public EntryAnswer answer() {
        return answer;
    }
}
