package app.tankround.schedule;

import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;

/**
 * One task of a visit.
 *
 * @param amount above 0; percent of the net volume, litres, millilitres, grams or pieces, as the unit says
 * @param unit one of {@link TaskKind#units()}; present exactly if there is an amount
 * @param item the name of a {@link Quantity} for a test, a purpose for water that is changed beside what is agreed, else a
 *     product, a medium or a piece of work
 * @param sizeMm diameter of a sock, 10 to 1000 mm
 * @param lengthMm of a sock, 10 to 3000 mm, where not any length will do
 * @param finenessUm what still passes through a sock, 1 to 2000 µm, where not any fineness will do
 * @param intervalDays how often it should be done, 1 to 3660 days, where that differs from the visits
 */
public record TaskView(
        TaskKind kind,
        Optional<BigDecimal> amount,
        Optional<String> unit,
        Optional<String> item,
        Optional<Integer> sizeMm,
        Optional<Integer> lengthMm,
        Optional<Integer> finenessUm,
        Optional<Integer> intervalDays) {

    /** So many percent of the net volume are changed. */
    public static TaskView waterChangePercent(BigDecimal percent) {
        return of(TaskKind.WATER_CHANGE, Optional.of(percent), Optional.of("%"), Optional.empty());
    }

    /** So many litres are changed. */
    public static TaskView waterChangeLitres(BigDecimal litres) {
        return of(TaskKind.WATER_CHANGE, Optional.of(litres), Optional.of("L"), Optional.empty());
    }

    /** So many litres are changed beside what is agreed, for a purpose that tells them apart. */
    public static TaskView moreWaterLitres(BigDecimal litres, String purpose) {
        return of(TaskKind.WATER_CHANGE, Optional.of(litres), Optional.of("L"), Optional.of(purpose));
    }

    /** Evaporated water is replaced: as much as is missing. */
    public static TaskView topUp() {
        return of(TaskKind.TOP_UP, Optional.empty(), Optional.empty(), Optional.empty());
    }

    /** Socks of one size are swapped, ideally every so many days. */
    public static TaskView sockSwap(int count, SockSize size, int intervalDays) {
        return socks(TaskKind.SOCK_SWAP, count, size, Optional.of(intervalDays));
    }

    /** Socks of one size are left with the client to swap. */
    public static TaskView socksLeft(int count, SockSize size) {
        return socks(TaskKind.SOCKS_LEFT, count, size, Optional.empty());
    }

    private static TaskView socks(TaskKind kind, int count, SockSize size, Optional<Integer> intervalDays) {
        return new TaskView(
                kind,
                Optional.of(BigDecimal.valueOf(count)),
                Optional.of("count"),
                Optional.empty(),
                Optional.of(size.diameterMm()),
                size.lengthMm(),
                size.finenessUm(),
                intervalDays);
    }

    /** A quantity is measured. */
    public static TaskView test(Quantity quantity) {
        return of(TaskKind.TEST, Optional.empty(), Optional.empty(), Optional.of(quantity.name()));
    }

    /** A product is dosed, in mL or g. */
    public static TaskView dose(String product, BigDecimal amount, String unit) {
        return of(TaskKind.DOSE, Optional.of(amount), Optional.of(unit), Optional.of(product));
    }

    /** A filter medium is changed, in g, mL, L or pieces ({@code count}). */
    public static TaskView media(String medium, BigDecimal amount, String unit) {
        return of(TaskKind.MEDIA, Optional.of(amount), Optional.of(unit), Optional.of(medium));
    }

    /** Other work, in words. */
    public static TaskView work(String what) {
        return of(TaskKind.WORK, Optional.empty(), Optional.empty(), Optional.of(what));
    }

    private static TaskView of(
            TaskKind kind, Optional<BigDecimal> amount, Optional<String> unit, Optional<String> item) {
        return new TaskView(
                kind, amount, unit, item, Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());
    }

    /**
     * Litres of a change that is agreed as such or in percent of the net volume, to a tenth, up.
     *
     * @param netLitres above 0
     */
    public BigDecimal litresOf(BigDecimal netLitres) {
        BigDecimal agreed = amount.orElse(BigDecimal.ZERO);
        return (unit.filter("%"::equals).isPresent()
                        ? netLitres.multiply(agreed).movePointLeft(2)
                        : agreed)
                .setScale(1, RoundingMode.CEILING);
    }

    /** The size of the socks it is about; empty for every other task. */
    public Optional<SockSize> sockSize() {
        return sizeMm.map(diameter -> new SockSize(diameter, lengthMm, finenessUm));
    }

    /** The quantity a test is for; empty for every other task. */
    public Optional<Quantity> quantity() {
        return kind == TaskKind.TEST ? item.map(Quantity::valueOf) : Optional.empty();
    }
}
