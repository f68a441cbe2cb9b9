package app.tankround.visits;

import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.web.EntryAnswer;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;

/** The answer to an entry that says what its field says already. */
@Component
class ReadingRepeats {

    private final ReadingService readings;
    private final ReadingAnswers answers;

    ReadingRepeats(ReadingService readings, ReadingAnswers answers) {
        this.readings = readings;
        this.answers = answers;
    }

    EntryAnswer answer(VisitEntry current, Locale locale) {
        JsonNode reading = current.facts().path("reading");
        if (!reading.isString()) {
            return EntryAnswer.applied();
        }
        return readings.find(ReadingId.of(UUID.fromString(reading.stringValue())))
                .map(found ->
                        EntryAnswer.applied("visits.reading-recorded", answers.of(found, Optional.empty(), locale)))
                .orElseGet(EntryAnswer::applied);
    }
}
