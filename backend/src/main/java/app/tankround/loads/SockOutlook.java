package app.tankround.loads;

import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.StockItemView;
import app.tankround.tanks.WaterSystemId;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Whether the clean socks last for the visits ahead. Overdue visits count as today's. */
@Service
public class SockOutlook {

    private static final int DAYS = 7;

    private final DueVisits dueVisits;
    private final Catalogue catalogue;

    SockOutlook(DueVisits dueVisits, Catalogue catalogue) {
        this.dueVisits = dueVisits;
        this.catalogue = catalogue;
    }

    /** Today and the six days after it, by size; sizes that nobody needs are left out. */
    @Transactional
    public List<SockForecast> weekAhead() {
        LocalDate today = dueVisits.today();
        return forecasts(today, dueVisits.dueOn(today.plusDays(DAYS - 1)));
    }

    private List<SockForecast> forecasts(LocalDate today, List<PlannedVisitView> visits) {
        Map<Integer, Map<LocalDate, Integer>> bySize = new TreeMap<>();
        byDayAndSystem(today, visits)
                .forEach((day, systems) -> systems.values()
                        .forEach(tasks -> Socks.bySize(SystemWork.once(tasks))
                                .forEach((size, count) -> bySize.computeIfAbsent(size, none -> new TreeMap<>())
                                        .merge(day, count, Integer::sum))));
        return bySize.entrySet().stream()
                .map(entry -> forecast(entry.getKey(), entry.getValue(), catalogue.socks(entry.getKey())))
                .toList();
    }

    private static Map<LocalDate, Map<WaterSystemId, List<TaskView>>> byDayAndSystem(
            LocalDate today, List<PlannedVisitView> visits) {
        Map<LocalDate, Map<WaterSystemId, List<TaskView>>> days = new TreeMap<>();
        for (PlannedVisitView visit : visits) {
            LocalDate day = visit.dueOn().isBefore(today) ? today : visit.dueOn();
            days.computeIfAbsent(day, none -> new LinkedHashMap<>())
                    .computeIfAbsent(visit.waterSystemId(), none -> new ArrayList<>())
                    .addAll(visit.tasks());
        }
        return days;
    }

    /** @param needs by day, in order */
    static SockForecast forecast(int sizeMm, Map<LocalDate, Integer> needs, List<StockItemView> shelf) {
        int onHand = Socks.onHand(shelf);
        int used = 0;
        Optional<LocalDate> shortOn = Optional.empty();
        List<SockForecast.Day> days = new ArrayList<>();
        for (Map.Entry<LocalDate, Integer> need : needs.entrySet()) {
            used += need.getValue();
            days.add(new SockForecast.Day(need.getKey(), need.getValue()));
            if (used > onHand && shortOn.isEmpty()) {
                shortOn = Optional.of(need.getKey());
            }
        }
        return new SockForecast(sizeMm, onHand, !shelf.isEmpty(), used, shortOn, days);
    }
}
