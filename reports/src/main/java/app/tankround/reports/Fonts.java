package app.tankround.reports;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.openpdf.text.pdf.BaseFont;

/**
 * The fonts of one document. Every glyph comes from an embedded font: the face asked for, then Noto Sans, then DejaVu
 * Sans. A character that none of them has is printed as the replacement character and keeps its own text for readers,
 * search and copying.
 */
final class Fonts {

    private static final String LAST_RESORT = "DejaVuSans.ttf";
    private static final String REPLACEMENT = "\uFFFD";

    /** Files are read once for all documents. */
    private static final Map<String, byte[]> FILES = new ConcurrentHashMap<>();

    private final Map<String, BaseFont> loaded = new HashMap<>();

    /**
     * A piece of text in one font.
     *
     * @param actual what the text stands for, if it is a replacement
     */
    record Run(BaseFont font, String text, @Nullable String actual) {
        float width(float size) {
            return font.getWidthPoint(text, size);
        }
    }

    /** Splits text into pieces that one font can print each. */
    List<Run> runs(String text, Face face) {
        List<Run> runs = new ArrayList<>();
        var pending = new StringBuilder();
        BaseFont pendingFont = null;
        for (int codePoint : text.codePoints().map(Fonts::normalized).toArray()) {
            if (isInvisible(codePoint)) {
                continue;
            }
            BaseFont font = fontFor(codePoint, face);
            if (font == null || font != pendingFont) {
                flush(runs, pending, pendingFont);
                pendingFont = font;
            }
            if (font == null) {
                runs.add(new Run(load(LAST_RESORT), REPLACEMENT, Character.toString(codePoint)));
            } else {
                pending.appendCodePoint(codePoint);
            }
        }
        flush(runs, pending, pendingFont);
        return runs;
    }

    private static void flush(List<Run> runs, StringBuilder pending, @Nullable BaseFont font) {
        if (font != null && !pending.isEmpty()) {
            runs.add(new Run(font, pending.toString(), null));
        }
        pending.setLength(0);
    }

    private @Nullable BaseFont fontFor(int codePoint, Face face) {
        for (String file : List.of(face.file, face.fallback, LAST_RESORT)) {
            BaseFont font = load(file);
            if (font.charExists(codePoint)) {
                return font;
            }
        }
        return null;
    }

    /** Characters that mean the same as one our faces have; white space of any kind that may break is a space. */
    private static int normalized(int codePoint) {
        return switch (codePoint) {
            case '\u00B5' -> '\u03BC';
            case '\u202F', '\u2007' -> '\u00A0';
            case '\u2009', '\u2002', '\u2003', '\u200A', '\t', '\n', '\r', '\u2028', '\u2029' -> ' ';
            default -> codePoint;
        };
    }

    private static boolean isInvisible(int codePoint) {
        return codePoint == '\u00AD'
                || Character.getType(codePoint) == Character.CONTROL
                || Character.getType(codePoint) == Character.FORMAT
                || Character.getType(codePoint) == Character.SURROGATE;
    }

    private BaseFont load(String file) {
        return loaded.computeIfAbsent(file, name -> {
            try {
                BaseFont font =
                        BaseFont.createFont(name, BaseFont.IDENTITY_H, BaseFont.EMBEDDED, false, bytes(name), null);
                // OpenPDF's CIDSet leaves glyphs out, which PDF/A-3 forbids; without a CIDSet the subset is valid.
                font.setIncludeCidSet(false);
                return font;
            } catch (IOException e) {
                throw new UncheckedIOException("Font " + name + " cannot be read", e);
            }
        });
    }

    private static byte[] bytes(String file) {
        return FILES.computeIfAbsent(file, name -> {
            try (InputStream in = Objects.requireNonNull(
                    Fonts.class.getResourceAsStream("fonts/" + name), () -> "Font " + name + " is missing")) {
                return in.readAllBytes();
            } catch (IOException e) {
                throw new UncheckedIOException("Font " + name + " cannot be read", e);
            }
        });
    }
}
