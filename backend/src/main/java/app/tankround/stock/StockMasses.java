package app.tankround.stock;

import app.tankround.units.Mass;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/**
 * What things weigh: by the catalogue where that knows them in a unit of the same sort, exactly where an amount is a mass, and
 * estimated by usual densities and masses otherwise. It holds the whole catalogue, since loads ask of many things at once.
 */
public final class StockMasses {

    /** Products are found whether written with capitals or not. */
    private record Named(StockKind kind, String name) {

        static Named of(StockKind kind, String name) {
            return new Named(kind, name.strip().toLowerCase(Locale.ROOT));
        }
    }

    private final Map<Named, List<StockItemView>> products;
    private final Map<Integer, List<StockItemView>> socks;

    StockMasses(List<StockItemView> all) {
        products = all.stream()
                .filter(item -> item.sizeMm().isEmpty())
                .collect(Collectors.groupingBy(item -> Named.of(item.kind(), item.name())));
        socks = all.stream()
                .filter(item -> item.kind() == StockKind.SOCK)
                .collect(Collectors.groupingBy(item -> item.sizeMm().orElse(0)));
    }

    /** @param unit {@code g}, {@code kg}, {@code mL}, {@code L} or {@code count} */
    public StockMass of(StockKind kind, String name, BigDecimal amount, String unit) {
        return of(products.getOrDefault(Named.of(kind, name), List.of()), kind, amount, unit);
    }

    /** What so many socks weigh; of several sorts that serve where that size is asked for, the heaviest counts. */
    public StockMass ofSocks(SockSize asked, int count) {
        List<StockItemView> known = socks.getOrDefault(asked.diameterMm(), List.of()).stream()
                .filter(item -> item.serves(asked))
                .toList();
        return of(known, StockKind.SOCK, BigDecimal.valueOf(count), "count");
    }

    private static StockMass of(List<StockItemView> known, StockKind kind, BigDecimal amount, String unit) {
        OptionalDouble weighed = known.stream()
                .flatMapToDouble(item -> AmountUnits.convert(amount.doubleValue(), unit, item.unit()).stream()
                        .map(units -> units * item.unitMass().kilograms()))
                .max();
        if (weighed.isPresent()) {
            return new StockMass(Mass.ofKilograms(weighed.getAsDouble()), false);
        }
        boolean isMass = AmountUnits.convert(1, unit, "kg").isPresent();
        return new StockMass(UsualMass.of(kind, amount.doubleValue(), unit), !isMass);
    }
}
