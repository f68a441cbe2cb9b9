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
     * @param keyInside what a round dot means, and so on for the half dot, the diamond and the struck ring
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
     * Readings in doubt.
     *
     * @param cellAsRead before the value in the table, such as {@code Read}
     * @param cellReal before the value in the table, such as {@code Really}
     * @param realUnknown said if nobody knows the real value
     * @param asRead in the notice, such as {@code What was read}
     * @param real in the notice, such as {@code What it really was}
     * @param notDone such as {@code What we did not do, and why}
     * @param ramp such as {@code Back to the target, step by step}
     */
    public record Doubt(
            String cellAsRead,
            String cellReal,
            String realUnknown,
            String asRead,
            String real,
            String notDone,
            String ramp) {}

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
