package app.tankround.reports;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.util.List;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/** Asks veraPDF, the validator of the PDF Association and the Open Preservation Foundation. */
public final class Conformance {

    private Conformance() {}

    /** Fails with the rules that the file breaks, of ISO 19005-3 (PDF/A-3a) and ISO 14289-1 (PDF/UA-1). */
    public static void assertConforms(byte[] pdf) {
        assertThat(failures(pdf, PDFAFlavour.PDFA_3_A)).isEmpty();
        assertThat(failures(pdf, PDFAFlavour.PDFUA_1)).isEmpty();
    }

    static List<String> failures(byte[] pdf, PDFAFlavour flavour) {
        VeraGreenfieldFoundryProvider.initialise();
        try (PDFAParser parser = Foundries.defaultInstance().createParser(new ByteArrayInputStream(pdf), flavour);
                PDFAValidator validator = Foundries.defaultInstance().createValidator(flavour, false)) {
            ValidationResult result = validator.validate(parser);
            List<String> failures = result.getTestAssertions().stream()
                    .filter(assertion -> assertion.getStatus() == TestAssertion.Status.FAILED)
                    .map(assertion -> assertion.getRuleId() + ": " + assertion.getMessage())
                    .distinct()
                    .toList();
            assertThat(result.isCompliant()).isEqualTo(failures.isEmpty());
            return failures;
        } catch (Exception e) {
            throw new AssertionError("veraPDF cannot read the file", e);
        }
    }
}
