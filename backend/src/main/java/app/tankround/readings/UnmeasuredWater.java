package app.tankround.readings;

import java.util.List;
import java.util.Locale;

/** Who knows which water went out although nobody had measured it, and of which nobody has said yet what became of it. */
public interface UnmeasuredWater {

    /** Code of the matter that such water is; it ends by a measurement within its target, or by what a person says. */
    String MATTER = "stock.batch.unmeasured-matter";

    /**
     * Water that went out unmeasured.
     *
     * @param page where it is measured
     * @param what which water
     * @param released when, by whom and why
     * @param found what it turned out to be, which is not what was meant; empty while nobody has measured it
     * @param decision by which it went out; what was done with it rests on that
     */
    record Line(String page, String what, String released, String found, DecisionId decision) {}

    /** The last one first. */
    List<Line> open(Locale locale);
}
