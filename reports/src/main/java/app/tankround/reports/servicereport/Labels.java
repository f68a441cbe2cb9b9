package app.tankround.reports.servicereport;

import app.tankround.reports.PageLabel;

/** The words of the form itself, in the language of the report. Grouped by the part of the page where they stand. */
public record Labels(
        Head head,
        Readings readings,
        Verdicts verdicts,
        Doubt doubt,
        Livestock livestock,
        Sections sections,
        Foot foot) {

    /** Particulars: {@code Report}, {@code Version}, {@code For}, {@code Site}, {@code Visit}, {@code Technician}, {@code Met}. */
    public record Head(
            String report, String version, String client, String site, String date, String technician, String met) {}

    /**
     * The table of readings.
     *
     * @param heading such as {@code What we measured}
     * @param none said instead of an empty table
     * @param key heading of the key to the marks, such as {@code How to read the marks}
     * @param keyPrevious what the small stroke below a point means
     */
    public record Readings(
            String heading,
            String quantity,
            String now,
            String before,
            String verdict,
            String target,
            String none,
            String key,
            String keyInside,
            String keyCannotTell,
            String keyOutside,
            String keyNotTrusted,
            String keyPrevious) {}

    /** The words beside the marks. */
    public record Verdicts(
            String inside,
            String cannotTell,
            String above,
            String below,
            String noTarget,
            String notTrusted,
            String notMeasured) {}

    /**
     * Readings in doubt, in the table and in the notice.
     *
     * @param asRead such as {@code What was read}
     * @param real such as {@code What it really was}
     * @param realUnknown said if nobody knows the real value
     * @param notDone such as {@code What we did not do, and why}
     * @param ramp such as {@code Back to the target, step by step}
     */
    public record Doubt(String asRead, String real, String realUnknown, String notDone, String ramp) {}

    /** Table of animals. */
    public record Livestock(String heading, String animal, String seen, String lost, String remark) {}

    /** Headings of the other sections. */
    public record Sections(
            String meaning,
            String done,
            String siteWork,
            String photos,
            String advice,
            String nextVisit,
            String cautions) {}

    /** @param page words with the page number */
    public record Foot(PageLabel page) {}
}
