package app.tankround.tanks.web;

import app.tankround.accounts.ChangeLog;
import app.tankround.tanks.WaterSystemId;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What was done to a system in the office, in words. */
@Component
class History {

    private static final int MOST_LINES = 20;

    /** @param fact what changed, or which treatment or work it is about; else empty */
    record Line(String on, String person, String action, String fact) {}

    private final ChangeLog changeLog;
    private final JsonMapper json;
    private final Words words;

    History(ChangeLog changeLog, JsonMapper json, Words words) {
        this.changeLog = changeLog;
        this.json = json;
        this.words = words;
    }

    /** The newest lines about a system, newest first. */
    List<Line> of(WaterSystemId id, Figures figures, ZoneId zone) {
        return changeLog.of("water-system", id.value()).stream()
                .limit(MOST_LINES)
                .map(line -> new Line(
                        figures.day(line.changedAt().atZone(zone).toLocalDate()),
                        line.personName(),
                        words.word("tanks.history." + line.action(), figures.locale()),
                        fact(line.action(), json.readTree(line.detail()), figures.locale())))
                .toList();
    }

    private String fact(String action, JsonNode detail, Locale locale) {
        return switch (action) {
            case "quarantine-restarted" ->
                words.word(
                        "tanks.history.quarantine-restarted.fact",
                        locale,
                        detail.path("quantity").asString(),
                        detail.path("livestock").asString(),
                        detail.path("classSince").path(0).asString(),
                        detail.path("classSince").path(1).asString());
            case "class-changed" -> classes(detail, locale);
            case "work-proposed", "work-settled" -> detail.path("reason").asString("");
            case "treatment-begun", "treatment-ended" -> detail.path("product").asString("");
            default -> "";
        };
    }

    private String classes(JsonNode detail, Locale locale) {
        JsonNode pair = detail.path("infectionClass");
        String note = detail.path("note").asString("");
        if (pair.isMissingNode()) {
            return note;
        }
        String moved = words.word(
                "tanks.history.class-changed.fact",
                locale,
                words.word("tanks.class." + pair.path(0).asString(), locale),
                words.word("tanks.class." + pair.path(1).asString(), locale));
        return note.isEmpty() ? moved : moved + ". " + note;
    }
}
