package app.tankround.reports.drumlabel;

import app.tankround.reports.PageLabel;
import app.tankround.reports.PdfDocument.Particular;
import java.time.Instant;
import java.util.List;
import java.util.Locale;

/**
 * Labels for drums, ready to be shown; several on a page.
 *
 * @param title of the sheet
 * @param business whose they are
 */
public record DrumLabels(
        String title, Locale language, String business, Instant issuedAt, PageLabel page, List<Label> labels) {

    public DrumLabels {
        labels = List.copyOf(labels);
    }

    /**
     * One label.
     *
     * @param headline which batch it is, large
     * @param says what is in it, beside that
     * @param facts salinity, who made and released it, by when it is to be used
     * @param address of the batch's page, as the code for a camera holds it; up to 300 characters
     * @param scan what the code is for
     */
    public record Label(String headline, List<String> says, List<Particular> facts, String address, String scan) {

        public Label {
            says = List.copyOf(says);
            facts = List.copyOf(facts);
        }
    }
}
