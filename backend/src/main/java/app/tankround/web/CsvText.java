package app.tankround.web;

import java.util.List;
import java.util.stream.Collectors;

/** Writes CSV as RFC 4180 has it: CRLF, quotes only where needed. */
public final class CsvText {

    private CsvText() {}

    public static String line(List<String> fields) {
        return fields.stream().map(CsvText::field).collect(Collectors.joining(",")) + "\r\n";
    }

    private static String field(String value) {
        boolean quotes = value.contains(",") || value.contains("\"") || value.contains("\n") || value.contains("\r");
        return quotes ? '"' + value.replace("\"", "\"\"") + '"' : value;
    }
}
