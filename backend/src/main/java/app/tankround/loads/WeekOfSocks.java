package app.tankround.loads;

import app.tankround.stock.SockSupply;
import java.util.List;
import org.springframework.stereotype.Component;

/** Tells the modules beside this one how long the clean socks last. */
@Component
class WeekOfSocks implements SockSupply {

    private final SockOutlook outlook;

    WeekOfSocks(SockOutlook outlook) {
        this.outlook = outlook;
    }

    @Override
    public List<Line> weekOfSocks() {
        return outlook.weekAhead().stream()
                .map(size -> new Line(size.sizeMm(), size.onHand(), size.needed(), size.shortOn()))
                .toList();
    }
}
