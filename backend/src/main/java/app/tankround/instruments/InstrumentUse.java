package app.tankround.instruments;

import java.util.List;

/** Where on its scale an instrument is used; whoever keeps readings answers. */
public interface InstrumentUse {

    /** What was read with it lately, on its own scale, in any order; empty if nothing. */
    List<Double> lately(InstrumentId instrument);

    /** What is known by now of each water that it was read on last, corrected, on its own scale; empty if nothing. */
    List<Double> really(InstrumentId instrument);
}
