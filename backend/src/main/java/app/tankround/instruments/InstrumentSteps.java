package app.tankround.instruments;

import java.util.List;
import java.util.Optional;

/** What another module asks to be done where an instrument is not trusted; shown at the top of its page. */
public interface InstrumentSteps {

    /**
     * One thing to do.
     *
     * @param code of the words
     * @param page where it is done
     */
    record Step(String code, List<Object> args, Optional<String> page) {

        public Step {
            args = List.copyOf(args);
        }
    }

    /** In the order in which they are done; empty if nothing is asked for. */
    List<Step> of(InstrumentView instrument);
}
