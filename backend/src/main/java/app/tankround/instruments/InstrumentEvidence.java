package app.tankround.instruments;

import java.util.List;

/** What another module knows that speaks for or against a suspect or condemned instrument; shown beside its checks. */
public interface InstrumentEvidence {

    /**
     * One thing, in words.
     *
     * @param page where more is said of it
     */
    record Said(String text, String page) {}

    /** The weightiest first; empty if nothing is known. */
    List<Said> of(InstrumentView instrument);
}
