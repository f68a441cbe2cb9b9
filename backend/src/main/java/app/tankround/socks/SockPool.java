package app.tankround.socks;

import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockBalance;
import app.tankround.stock.StockItemView;
import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;

/**
 * Where the socks of one item are.
 *
 * @param balances all accounts of the ledger on which there are any, their sum being 0
 * @param ages how often those that are still in use were washed
 * @param worn of these, how many were washed as often as a sock is to be washed at most
 * @param wornInFourWeeks how many of them will be, if as many are washed as in the weeks before
 */
public record SockPool(StockItemView item, List<StockBalance> balances, SockAges ages, int worn, int wornInFourWeeks) {

    public SockPool {
        balances = List.copyOf(balances);
    }

    /** On the shelf of the depot, or of a further one. */
    public int clean() {
        return of(StockAccountKind.DEPOT);
    }

    public int inVans() {
        return of(StockAccountKind.VAN);
    }

    /** At work at a system. */
    public int inUse() {
        return of(StockAccountKind.IN_USE);
    }

    /** Clean ones left with clients. */
    public int withClients() {
        return of(StockAccountKind.SITE, StockAccountKind.CLIENT_OWNED);
    }

    /** At the depot and in vans. */
    public int dirty() {
        return of(StockAccountKind.DIRTY);
    }

    public int dirtyApart() {
        return of(StockAccountKind.DIRTY_APART);
    }

    public int inWash() {
        return of(StockAccountKind.IN_WASH);
    }

    public int drying() {
        return of(StockAccountKind.DRYING);
    }

    public int retired() {
        return of(StockAccountKind.RETIRED);
    }

    /** Lost, broken or thrown away, or sent back. */
    public int gone() {
        return of(StockAccountKind.LOST, StockAccountKind.BROKEN, StockAccountKind.WASTED, StockAccountKind.SENT_BACK);
    }

    /** All that are still in use, wherever they are. */
    public int together() {
        return sum(balances.stream()
                .filter(balance -> balance.account().kind().isPlace())
                .toList());
    }

    private int of(StockAccountKind... kinds) {
        return sum(balances.stream()
                .filter(balance ->
                        Arrays.asList(kinds).contains(balance.account().kind()))
                .toList());
    }

    private static int sum(List<StockBalance> balances) {
        return balances.stream()
                .map(StockBalance::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .intValueExact();
    }
}
