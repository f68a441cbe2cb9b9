package app.tankround.accounts.exchange;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** One CSV file taken apart: records with the line each begins on. */
record CsvFile(List<Line> lines) {

    /** @param number line of the file on which the record begins, from 1 */
    record Line(int number, List<String> fields) {}

    /** A file that cannot be read as UTF-8 RFC 4180 at all. */
    static final class Unreadable extends Exception {

        private static final long serialVersionUID = 1L;

        private final String code;
        private final int line;

        Unreadable(String code, int line) {
            super(code);
            this.code = code;
            this.line = line;
        }

        String code() {
            return code;
        }

        int line() {
            return line;
        }
    }

    /**
     * A hand-made reader, since libraries do not tell the line on which a record with line breaks inside quotes began.
     *
     * @throws Unreadable with code {@code csv.not-utf8} or {@code csv.quotes}
     */
    static CsvFile read(byte[] bytes) throws Unreadable {
        String text;
        try {
            text = StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
        } catch (CharacterCodingException otherEncoding) {
            throw new Unreadable("csv.not-utf8", 0);
        }
        if (text.startsWith("\uFEFF")) {
            text = text.substring(1);
        }
        if (text.indexOf('\0') >= 0) {
            throw new Unreadable("csv.not-utf8", 0);
        }
        return new CsvFile(records(text));
    }

    private static List<Line> records(String text) throws Unreadable {
        var lines = new ArrayList<Line>();
        var fields = new ArrayList<String>();
        var field = new StringBuilder();
        boolean quoted = false;
        boolean wasQuoted = false;
        int line = 1;
        int begins = 1;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (quoted) {
                if (c == '"' && i + 1 < text.length() && text.charAt(i + 1) == '"') {
                    field.append('"');
                    i++;
                } else if (c == '"') {
                    quoted = false;
                } else {
                    line += c == '\n' ? 1 : 0;
                    field.append(c);
                }
            } else if (c == '"') {
                if (!field.isEmpty() || wasQuoted) {
                    throw new Unreadable("csv.quotes", line);
                }
                quoted = true;
                wasQuoted = true;
            } else if (c == ',') {
                fields.add(field.toString());
                field.setLength(0);
                wasQuoted = false;
            } else if (c == '\n' || c == '\r') {
                if (c == '\r' && i + 1 < text.length() && text.charAt(i + 1) == '\n') {
                    i++;
                }
                end(lines, fields, field, wasQuoted, begins);
                wasQuoted = false;
                line++;
                begins = line;
            } else if (wasQuoted) {
                throw new Unreadable("csv.quotes", line);
            } else {
                field.append(c);
            }
        }
        if (quoted) {
            throw new Unreadable("csv.quotes", begins);
        }
        end(lines, fields, field, wasQuoted, begins);
        return lines;
    }

    private static void end(List<Line> lines, List<String> fields, StringBuilder field, boolean wasQuoted, int begins) {
        boolean empty = fields.isEmpty() && field.isEmpty() && !wasQuoted;
        if (!empty) {
            fields.add(field.toString());
            lines.add(new Line(begins, List.copyOf(fields)));
        }
        fields.clear();
        field.setLength(0);
    }
}
