package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What stands before the membrane: prefilter and carbon.
 *
 * <p>Carbon is there for chlorine and chloramine, and only a test for them shows that it still works. Purified water with
 * nearly no dissolved solids proves nothing about them: a pen does not see them, and a membrane holds chloramine back
 * badly and is ruined by chlorine.
 */
public final class PretreatmentState {

    /** Months that a prefilter lasts at most: 6 to 12, common practice, no source. */
    public static final int USUAL_PREFILTER_MONTHS = 6;

    /** Months that a carbon block lasts at most; common practice, no source. */
    public static final int USUAL_CARBON_MONTHS = 6;

    /** Drop in kPa from which a prefilter is clogged, one bar; common practice, no source. */
    public static final double USUAL_PRESSURE_DROP = 100;

    /** Litres between two tests after the carbon; common practice, no source. */
    public static final double USUAL_LITRES_BETWEEN_TESTS = 1000;

    /** Days after a test from which a meter that nobody reads is missed; common practice, no source. */
    public static final long UNREAD_DAYS = 30;

    /** From this a kit sees chlorine, in mg/L; less is not told from none. From memory. */
    public static final double SEEN_FROM = 0.02;

    private PretreatmentState() {}

    /**
     * Judges a prefilter.
     *
     * @param months whole months since it was put in
     * @param monthsAllowed at least 1
     * @param drop pressure before less pressure after it, in kPa, where both were read
     * @param dropAllowed in kPa, above 0
     */
    public static List<PurifiedWaterNote> prefilter(
            long months, int monthsAllowed, OptionalDouble drop, double dropAllowed) {
        Ranges.require(InputKind.PRESSURE, dropAllowed, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        List<PurifiedWaterNote> notes = new ArrayList<>();
        if (drop.isPresent() && drop.getAsDouble() >= dropAllowed) {
            notes.add(PurifiedWaterNote.of(PurifiedWaterCode.PREFILTER_CLOGGED, drop.getAsDouble(), dropAllowed));
        }
        if (months >= monthsAllowed) {
            notes.add(PurifiedWaterNote.of(PurifiedWaterCode.PREFILTER_OLD, (double) months, (double) monthsAllowed));
        }
        return notes;
    }

    /**
     * A test of the water after the carbon.
     *
     * @param free free chlorine in mg/L, where it was tested
     * @param total total chlorine, chloramine included, where it was tested
     * @param litresSince made since then; empty where nobody knows
     * @param daysSince whole days since then
     */
    public record ChlorineTest(OptionalDouble free, OptionalDouble total, OptionalDouble litresSince, long daysSince) {

        /** Chloramine as mg/L of chlorine: what is in the total but not free. */
        public OptionalDouble chloramine() {
            return free.isPresent() && total.isPresent()
                    ? OptionalDouble.of(Math.max(0, total.getAsDouble() - free.getAsDouble()))
                    : OptionalDouble.empty();
        }
    }

    /**
     * Judges the carbon by the newest test.
     *
     * @param test empty if there was none since the carbon was put in
     * @param litresAllowed between two tests, above 0
     */
    public static List<PurifiedWaterNote> carbon(
            Optional<ChlorineTest> test, double litresAllowed, long months, int monthsAllowed) {
        Ranges.require(InputKind.VOLUME, litresAllowed, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        List<PurifiedWaterNote> notes = new ArrayList<>();
        test.ifPresent(found -> passing(found).forEach(notes::add));
        if (test.isEmpty()) {
            notes.add(PurifiedWaterNote.of(PurifiedWaterCode.CHLORINE_NEVER_TESTED));
        }
        test.flatMap(found -> again(found, litresAllowed)).ifPresent(notes::add);
        if (test.isPresent() && test.get().total().isEmpty()) {
            notes.add(PurifiedWaterNote.of(PurifiedWaterCode.CHLORAMINE_UNKNOWN));
        }
        if (months >= monthsAllowed) {
            notes.add(PurifiedWaterNote.of(PurifiedWaterCode.CARBON_OLD, (double) months, (double) monthsAllowed));
        }
        return notes;
    }

    private static Optional<PurifiedWaterNote> again(ChlorineTest test, double litresAllowed) {
        if (test.litresSince().isEmpty()) {
            return test.daysSince() >= UNREAD_DAYS
                    ? Optional.of(PurifiedWaterNote.of(PurifiedWaterCode.LITRES_UNKNOWN, (double) test.daysSince()))
                    : Optional.empty();
        }
        double litres = test.litresSince().getAsDouble();
        return litres >= litresAllowed
                ? Optional.of(PurifiedWaterNote.of(PurifiedWaterCode.CHLORINE_TEST_DUE, litres, litresAllowed))
                : Optional.empty();
    }

    private static List<PurifiedWaterNote> passing(ChlorineTest test) {
        List<PurifiedWaterNote> notes = new ArrayList<>();
        double free = test.free().orElse(0);
        if (free >= SEEN_FROM) {
            notes.add(PurifiedWaterNote.of(PurifiedWaterCode.CHLORINE_PASSES, free));
        }
        double rest = test.total().orElse(0) - free;
        if (rest >= SEEN_FROM) {
            notes.add(PurifiedWaterNote.of(PurifiedWaterCode.CHLORAMINE_PASSES, rest));
        }
        return notes;
    }
}
