package app.tankround.stock;

import app.tankround.clients.SiteId;
import java.math.BigDecimal;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What clients keep at their sites themselves, such as salt or socks of their own: it is used there before anything is brought. */
@Service
public class ClientOwned {

    private final StockLedger ledger;
    private final Catalogue catalogue;

    ClientOwned(StockLedger ledger, Catalogue catalogue) {
        this.ledger = ledger;
        this.catalogue = catalogue;
    }

    /** At a site, by name. */
    @Transactional(readOnly = true)
    public List<StockAmount> at(SiteId site) {
        return at(List.of(site)).getOrDefault(site, List.of());
    }

    /** At each of these sites that has anything. */
    @Transactional(readOnly = true)
    public Map<SiteId, List<StockAmount>> at(Collection<SiteId> sites) {
        return where(new HashSet<>(sites)::contains);
    }

    /** At every site that has anything. */
    @Transactional(readOnly = true)
    public Map<SiteId, List<StockAmount>> everywhere() {
        return where(site -> true);
    }

    private Map<SiteId, List<StockAmount>> where(Predicate<SiteId> asked) {
        List<StockBalance> there = ledger.balancesOf(StockAccountKind.CLIENT_OWNED).stream()
                .filter(balance -> asked.test(site(balance)))
                .toList();
        if (there.isEmpty()) {
            return Map.of();
        }
        Map<StockItemId, StockItemView> items =
                catalogue.all().stream().collect(Collectors.toMap(StockItemView::id, item -> item));
        return there.stream()
                .collect(Collectors.groupingBy(
                        ClientOwned::site,
                        Collectors.collectingAndThen(
                                Collectors.groupingBy(
                                        StockBalance::item,
                                        () -> new TreeMap<>(Comparator.comparing(StockItemId::toString)),
                                        Collectors.reducing(BigDecimal.ZERO, StockBalance::amount, BigDecimal::add)),
                                ofSite -> ofSite.entrySet().stream()
                                        .filter(each -> each.getValue().signum() > 0)
                                        .map(each -> new StockAmount(
                                                Objects.requireNonNull(items.get(each.getKey())), each.getValue()))
                                        .sorted(Comparator.comparing(
                                                each -> each.item().title()))
                                        .toList())));
    }

    private static SiteId site(StockBalance balance) {
        return SiteId.of(balance.account().place().orElseThrow());
    }
}
