package app.tankround.reports;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.reports.Fonts.Run;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class TypesetterTests {

    @Test
    void breaksNoTimeAfterItsColonHoweverNarrowTheColumn() {
        var typesetter = new Typesetter(Locale.UK);
        String dates = "19 November 2026, 09:15 to 10:40";
        assertThat(IntStream.rangeClosed(40, 200)
                        .boxed()
                        .flatMap(width -> typesetter.wrap(dates, Type.CELL, width).stream())
                        .map(line -> line.runs().stream().map(Run::text).collect(Collectors.joining())))
                .noneMatch(line -> line.stripTrailing().endsWith(":"));
    }
}
