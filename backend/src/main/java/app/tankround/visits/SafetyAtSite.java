package app.tankround.visits;

import app.tankround.clients.SiteId;
import app.tankround.clients.SiteSafetyService;
import app.tankround.clients.SiteSafetyView;
import app.tankround.clients.SiteView;
import app.tankround.plans.DoseKind;
import app.tankround.plans.DoseRules;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Volume;
import app.tankround.visits.BeforeHands.Chemical;
import app.tankround.visits.VisitView.DepartureLine;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;

/** What a site's own facts and the tasks of a day ask of whoever goes there. */
@Service
public class SafetyAtSite {

    private static final Set<TaskKind> HANDS_IN =
            Set.of(TaskKind.WATER_CHANGE, TaskKind.SOCK_SWAP, TaskKind.MEDIA, TaskKind.WORK);

    private static final Set<DoseKind> MEDICINES = Set.of(DoseKind.MEDICATION, DoseKind.COPPER, DoseKind.ALGICIDE);

    /** A drum of 20 L of water is near what one person should lift in an ideal lift, 23 kg (NIOSH). */
    private static final double ONE_DRUM_L = 20;

    private final SiteSafetyService safety;
    private final DoseRules rules;
    private final MessageSource messages;

    SafetyAtSite(SiteSafetyService safety, DoseRules rules, MessageSource messages) {
        this.safety = safety;
        this.rules = rules;
        this.messages = messages;
    }

    /** The lines of the check before leaving that are asked at a site. */
    List<DepartureLine> asked(SiteId site) {
        return asked(safety.of(site));
    }

    /** Those that are asked where this is said of a site. */
    public static List<DepartureLine> asked(SiteSafetyView said) {
        boolean tested = said.residualCurrentTest().isAskedBeforeLeaving();
        return Arrays.stream(DepartureLine.values())
                .filter(line -> line.isAsked() && (line != DepartureLine.RCD_TESTED || tested))
                .toList();
    }

    /**
     * What is said before hands go in, in words.
     *
     * @param said of the site
     * @param due what is due there that day
     * @param systems those that stand there
     * @param changed how much water is changed there that day
     * @param loaded how much water the van brings there; empty where nobody worked out a load
     * @param spoken a volume in the business's unit
     */
    public List<String> before(
            SiteView site,
            SiteSafetyView said,
            LocalDate day,
            Collection<PlannedVisitView> due,
            Collection<WaterSystemView> systems,
            Volume changed,
            Optional<Volume> loaded,
            Function<Volume, String> spoken,
            Locale locale) {
        List<TaskView> tasks =
                due.stream().flatMap(visit -> visit.tasks().stream()).toList();
        boolean mixedThere = site.mixingBarrel() || site.ownRoDi();
        Volume carried = loaded.orElseGet(() -> mixedThere ? Volume.ofLitres(0) : changed);
        BeforeHands.Facts facts = new BeforeHands.Facts(
                said,
                due.isEmpty() || tasks.stream().anyMatch(task -> HANDS_IN.contains(task.kind())),
                changed.litres() > 0 ? Optional.of(spoken.apply(changed)) : Optional.empty(),
                carried.litres() >= ONE_DRUM_L ? Optional.of(spoken.apply(carried)) : Optional.empty(),
                chemicals(tasks),
                systems.stream()
                        .filter(system -> system.infectionClass().isSick())
                        .map(WaterSystemView::name)
                        .toList(),
                day);
        return BeforeHands.of(facts).stream()
                .map(each -> messages.getMessage(
                                "visits.before." + each.code(), each.args().toArray(), locale)
                        .strip())
                .toList();
    }

    private Map<Chemical, String> chemicals(List<TaskView> tasks) {
        Map<Chemical, String> found = new EnumMap<>(Chemical.class);
        for (TaskView task : tasks) {
            if (task.kind() == TaskKind.TEST) {
                continue;
            }
            String words = task.item().orElse("");
            Stream<Chemical> medicine = task.kind() == TaskKind.DOSE
                            && rules.kind(words).filter(MEDICINES::contains).isPresent()
                    ? Stream.of(Chemical.MEDICINE)
                    : Stream.empty();
            Stream.concat(Chemical.in(words), medicine)
                    .forEach(chemical -> found.merge(chemical, words, (one, other) -> one + ", " + other));
        }
        return found;
    }
}
