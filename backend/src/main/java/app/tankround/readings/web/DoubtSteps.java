package app.tankround.readings.web;

import app.tankround.instruments.InstrumentSteps;
import app.tankround.instruments.InstrumentView;
import app.tankround.readings.DoubtListView;
import app.tankround.readings.DoubtLists;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.springframework.stereotype.Component;

/** Sends whoever looks at an instrument to what it brought into doubt. */
@Component
class DoubtSteps implements InstrumentSteps {

    private final DoubtLists lists;

    DoubtSteps(DoubtLists lists) {
        this.lists = lists;
    }

    @Override
    public List<Step> of(InstrumentView instrument) {
        List<Step> steps = new ArrayList<>();
        lists.suspects().stream()
                .filter(suspect -> suspect.instrument().id().equals(instrument.id()))
                .mapToInt(suspect -> suspect.measureToday().size())
                .filter(count -> count > 0)
                .forEach(count ->
                        steps.add(new Step("readings.step.measure-today", List.of(count), Optional.of("/doubts"))));
        lists.of(instrument.id()).stream().filter(list -> list.open() > 0).forEach(list -> steps.add(step(list)));
        return steps;
    }

    private static Step step(DoubtListView list) {
        return new Step(
                "readings.step.doubt-list", List.of(list.open(), list.lines()), Optional.of("/doubts/" + list.id()));
    }
}
