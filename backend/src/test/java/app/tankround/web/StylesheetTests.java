package app.tankround.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Contrast by the formula for relative luminance and contrast ratio in WCAG 2.2 (W3C Recommendation, definitions
 * "relative luminance" and "contrast ratio"): text needs 4.5 (criterion 1.4.3), edges of controls and the focus ring
 * need 3 (criteria 1.4.11 and 2.4.7 with 1.4.11).
 */
class StylesheetTests {

    private static final String CSS = read("/static/css/tankround.css");

    @ParameterizedTest
    @CsvSource({
        "ink, paper, 4.5",
        "ink, sheet, 4.5",
        "ink-2, paper, 4.5",
        "ink-2, sheet, 4.5",
        "ink-2, band, 4.5",
        "signal, paper, 4.5",
        "signal, sheet, 4.5",
        "on-signal, signal, 4.5",
        "on-ink, ink, 4.5",
        "line, paper, 3",
        "line, sheet, 3",
        "focus, paper, 3",
        "focus, sheet, 3"
    })
    void keepsContrastInLightAndDark(String front, String back, double least) {
        for (Map<String, String> theme : List.of(tokens(":root {"), tokens(":root[data-theme=\"dark\"] {"))) {
            double ratio = contrast(colour(theme, front), colour(theme, back));
            assertThat(ratio).as("%s on %s in %s", front, back, theme).isGreaterThanOrEqualTo(least);
        }
    }

    /** The two extremes of the scale, as the definition of the ratio gives them: 21 and 1. */
    @Test
    void measuresTheEndsOfTheScale() {
        assertThat(contrast("#000000", "#ffffff")).isEqualTo(21.0);
        assertThat(contrast("#777777", "#777777")).isEqualTo(1.0);
    }

    @Test
    void showsTheSameDarkWhetherChosenOrFollowed() {
        assertThat(tokens(":root:not([data-theme=\"light\"]) {")).isEqualTo(tokens(":root[data-theme=\"dark\"] {"));
    }

    @Test
    void loadsNothingFromElsewhereAndEveryFaceIsThere() {
        assertThat(CSS).doesNotContain("@import", "url(\"data:", "http:", "https:");
        Matcher files = Pattern.compile("url\\(\"\\.\\./([^\"]+)\"\\)").matcher(CSS);
        int found = 0;
        while (files.find()) {
            assertThat(getClass().getResource("/static/" + files.group(1)))
                    .as(files.group(1))
                    .isNotNull();
            found++;
        }
        assertThat(found).isEqualTo(4);
        assertThat(read("/static/fonts/atkinson-hyperlegible-next-OFL.txt")).contains("SIL Open Font License");
        assertThat(read("/static/fonts/source-serif-4-OFL.txt")).contains("SIL Open Font License");
    }

    private static Map<String, String> tokens(String selector) {
        int start = CSS.indexOf(selector);
        assertThat(start).as(selector).isNotNegative();
        Matcher declarations = Pattern.compile("--([a-z0-9-]+): (#[0-9a-f]{6});")
                .matcher(CSS.substring(start, CSS.indexOf('}', start)));
        Map<String, String> tokens = new HashMap<>();
        while (declarations.find()) {
            tokens.put(declarations.group(1), declarations.group(2));
        }
        return tokens;
    }

    private static String colour(Map<String, String> theme, String name) {
        return Objects.requireNonNull(theme.get(name), name);
    }

    private static double contrast(String one, String other) {
        double a = luminance(one);
        double b = luminance(other);
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    private static double luminance(String colour) {
        return 0.2126 * linear(colour, 1) + 0.7152 * linear(colour, 3) + 0.0722 * linear(colour, 5);
    }

    private static double linear(String colour, int at) {
        double c = Integer.parseInt(colour.substring(at, at + 2), 16) / 255.0;
        return c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
    }

    private static String read(String resource) {
        try (InputStream in = Objects.requireNonNull(StylesheetTests.class.getResourceAsStream(resource), resource)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new IllegalStateException(resource, e);
        }
    }
}
