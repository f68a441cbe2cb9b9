package app.tankround.tablet;

import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryHandler;
import app.tankround.web.FieldRefusal;
import org.springframework.stereotype.Component;

/**
 * What a device says instead of an entry that can never arrive, such as one whose photo is no photo: kind {@code
 * tablet.given-up}, in the place and under the sequence of the entry, with a body such as {@code {"kind": "visit.photo",
 * "words": "This is no photo."}}. So nothing is missing in between, and the office is told.
 */
@Component
class GivenUpEntries implements EntryHandler {

    @Override
    public boolean handles(String kind) {
        return kind.equals("tablet.given-up");
    }

    @Override
    public EntryAnswer apply(Entry entry) {
        throw new FieldRefusal(
                "kind",
                "tablet.given-up",
                entry.body().path("kind").asString(""),
                entry.body().path("words").asString(""));
    }
}
