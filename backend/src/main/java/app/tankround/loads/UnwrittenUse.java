package app.tankround.loads;

import app.tankround.clients.SiteService;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.TaskKind;
import app.tankround.stock.Catalogue;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * What visits of a round use up without anybody writing it down, by the rules of its load sheet: dry salt that is mixed at the
 * site, and conditioner for tap water.
 */
@Component
@Transactional(readOnly = true)
public class UnwrittenUse {

    /** What a dose of conditioner is called where somebody writes one down. */
    public static final String CONDITIONER = LoadRules.CONDITIONER;

    private final LoadSheets sheets;
    private final RoundService rounds;
    private final SiteService sites;
    private final Catalogue catalogue;

    UnwrittenUse(LoadSheets sheets, RoundService rounds, SiteService sites, Catalogue catalogue) {
        this.sheets = sheets;
        this.rounds = rounds;
        this.sites = sites;
        this.catalogue = catalogue;
    }

    /**
     * What is used where a task is done as planned; in proportion where more or less is.
     *
     * @param task for which
     * @param item what tells the task apart, as {@link app.tankround.schedule.TaskUse#item}
     * @param kind SALT or DOSE
     * @param product as the catalogue has it
     * @param amount above 0
     */
    public record Planned(TaskKind task, String item, StockKind kind, String product, BigDecimal amount, String unit) {}

    /** Of systems on a round; of salt nothing where the catalogue has not just one, since nobody said which. */
    public Map<WaterSystemId, List<Planned>> of(RoundId round, Collection<WaterSystemView> systems) {
        Set<WaterSystemId> asked =
                systems.stream().filter(this::mayBe).map(WaterSystemView::id).collect(Collectors.toSet());
        Map<WaterSystemId, List<Planned>> found = new HashMap<>();
        if (!asked.isEmpty()) {
            rounds.find(round).stream()
                    .flatMap(each -> sheets.planned(each).stream())
                    .filter(use -> asked.contains(use.system().id()))
                    .forEach(use -> planned(use)
                            .forEach(one -> found.computeIfAbsent(use.system().id(), none -> new ArrayList<>())
                                    .add(one)));
        }
        return found;
    }

    /** Whether water is made there at all, so that the sheet need not be worked out for all others. */
    private boolean mayBe(WaterSystemView system) {
        return sites.find(system.siteId())
                .filter(site -> system.kind().isSalt() ? site.ownRoDi() : site.ownTap())
                .isPresent();
    }

    private Stream<Planned> planned(PlannedUse use) {
        LineKey key = LineKey.of(use.key());
        return switch (key.kind().equals(LoadRules.THERE_KEY) ? key.name() : key.kind()) {
            case LoadRules.DRY_SALT_KEY ->
                catalogue.onlySalt().map(StockItemView::name).stream()
                        .map(mix -> new Planned(use.task(), use.item(), StockKind.SALT, mix, use.amount(), "kg"));
            case LoadRules.CONDITIONER_KEY ->
                Stream.of(
                        new Planned(use.task(), use.item(), StockKind.DOSE, LoadRules.CONDITIONER, use.amount(), "mL"));
            default -> Stream.empty();
        };
    }
}
