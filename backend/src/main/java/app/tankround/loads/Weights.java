package app.tankround.loads;

import app.tankround.stock.StockKind;
import app.tankround.stock.StockMass;
import app.tankround.units.SockSize;
import java.math.BigDecimal;

/** What things weigh, as the stock knows it. */
interface Weights {

    /** @param unit {@code g}, {@code kg}, {@code mL}, {@code L} or {@code count} */
    StockMass of(StockKind kind, String name, BigDecimal amount, String unit);

    StockMass ofSocks(SockSize asked, int count);
}
