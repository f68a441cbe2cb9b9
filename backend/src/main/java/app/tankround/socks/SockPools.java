package app.tankround.socks;

import app.tankround.stock.Catalogue;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import java.util.List;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Where all socks are, down to the last one, and how worn they are. */
@Service
@Transactional(readOnly = true)
public class SockPools {

    static final int WEEKS_AHEAD = 4;

    private final Catalogue catalogue;
    private final StockLedger ledger;
    private final SockCycles cycles;
    private final SockWashingSettings washing;

    SockPools(Catalogue catalogue, StockLedger ledger, SockCycles cycles, SockWashingSettings washing) {
        this.catalogue = catalogue;
        this.ledger = ledger;
        this.cycles = cycles;
        this.washing = washing;
    }

    /** Each item by its size, then by its name. */
    public List<SockPool> all() {
        int most = washing.current().mostWashes();
        return catalogue.all().stream()
                .filter(item -> item.kind() == StockKind.SOCK)
                .sorted(SockCycles.BY_SIZE)
                .map(item -> of(item, most))
                .toList();
    }

    private SockPool of(StockItemView item, int most) {
        SockPool pool = new SockPool(item, ledger.balances(item.id()), SockAges.NONE, 0, 0);
        SockAges ages = cycles.now(item.id(), pool.together());
        int aWeek = cycles.washedAWeek(item.id());
        SockAges later = ages;
        for (int week = 0; week < WEEKS_AHEAD; week++) {
            later = later.washed(Math.min(aWeek, later.total()));
        }
        return new SockPool(item, pool.balances(), ages, ages.washedAtLeast(most), later.washedAtLeast(most));
    }
}
