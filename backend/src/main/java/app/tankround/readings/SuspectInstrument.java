package app.tankround.readings;

import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.SuspicionView;
import java.util.List;

/**
 * An instrument that decides nothing until a check settles it.
 *
 * @param measureToday the newest readings by it since its last good check that are near what harms animals, and that
 *     nobody has measured again with another instrument
 */
public record SuspectInstrument(InstrumentView instrument, SuspicionView suspicion, List<ReadingView> measureToday) {

    public SuspectInstrument {
        measureToday = List.copyOf(measureToday);
    }
}
