package app.tankround.stock;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Days;
import app.tankround.chemistry.SaltYield;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.time.Clock;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * What lots of salt yield, learned from batches whose salt, lot, volume and salinity are written down and whose instrument
 * decides. A lot starts from what other lots came to, and these from the yield that the business states; see
 * {@link SaltYield} for what follows from its own batches.
 */
@Service
@Transactional(readOnly = true)
public class SaltYields {

    /** How far a product is from the yield stated for it, and how far its lots are from each other; own choices, no source. */
    private static final double STATED_SPREAD = 0.03;

    private static final double LOTS_SPREAD = 0.012;

    /** Relative standard uncertainties of a volume read off a vat's scale and of salt weighed; common practice, no source. */
    private static final double VOLUME_PART = 0.015;

    private static final double SALT_PART = 0.005;

    /** Standard uncertainty of a salinity whose instrument states none; common practice, no source. */
    private static final double USUAL_SALINITY = 0.5;

    /** What no salt mix yields tells of a slip, not of the lot. */
    private static final double SMALLEST = 0.5;

    private static final Temperature USUAL = Temperature.ofCelsius(25);
    private static final int STILL_OPEN_DAYS = 60;

    /** Lots of which no batch was made for so long, and of which nothing is left, tell nothing of today; own choice, no source. */
    private static final int REMEMBERED_DAYS = 365;

    private static final double DAYS_PER_WEEK = 7;

    private final JdbcClient jdbc;
    private final ReadingService readings;
    private final BusinessProfile business;
    private final Days days;
    private final Clock clock;

    SaltYields(JdbcClient jdbc, ReadingService readings, BusinessProfile business, Days days, Clock clock) {
        this.jdbc = jdbc;
        this.readings = readings;
        this.business = business;
        this.days = days;
        this.clock = clock;
    }

    /** A batch made of a lot, and what it came to. */
    private record Made(String lot, LocalDate day, double yield, double deviation) {}

    /** Lots of which a batch was measured and that are still there or were used within a year, the last opened first. */
    public List<SaltLotView> lots() {
        return lots(days.of(clock.instant()), LocalDate.MAX);
    }

    /**
     * The yield to weigh salt by: that of the lot that is open, else of what lots came to, else the stated one. It goes by
     * batches made before the Monday of that day, so that a load sheet stays as it is while its week goes on.
     *
     * @return 0.5 to 1
     */
    public double toWeigh(LocalDate day) {
        List<SaltLotView> lots = lots(day, day.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY)));
        return lots.stream()
                .max(Comparator.comparing(SaltLotView::last))
                .filter(lot -> ChronoUnit.DAYS.between(lot.last(), day) <= STILL_OPEN_DAYS)
                .map(lot -> lot.yield().after(weeks(lot.opened(), day)))
                .or(() -> lots.isEmpty() ? Optional.empty() : Optional.of(family(lots)))
                .map(yield -> Math.clamp(yield, SMALLEST, 1))
                .orElseGet(() -> business.current().saltYield());
    }

    /** The same for salt of a lot, whether it was opened last or not; of a lot that nothing is known of, as {@link #toWeigh}. */
    public double toWeigh(Optional<String> lot, LocalDate day) {
        return lot.map(SaltYields::key)
                .flatMap(key -> lots().stream()
                        .filter(known -> key(known.lot()).equals(key))
                        .findFirst())
                .map(known -> Math.clamp(known.yield().after(weeks(known.opened(), day)), SMALLEST, 1))
                .orElseGet(() -> toWeigh(day));
    }

    private static double family(List<SaltLotView> lots) {
        return lots.stream().mapToDouble(SaltLotView::own).average().orElseThrow();
    }

    private List<SaltLotView> lots(LocalDate day, LocalDate before) {
        Map<String, List<Made>> byLot = made(day.minusDays(REMEMBERED_DAYS)).stream()
                .filter(made -> made.day().isBefore(before))
                .collect(Collectors.groupingBy(made -> key(made.lot())));
        List<Lot> known = byLot.values().stream().map(Lot::of).toList();
        List<SaltLotView> lots = new ArrayList<>();
        for (Lot lot : known) {
            lots.add(view(lot, known.stream().filter(other -> other != lot).toList()));
        }
        lots.sort(Comparator.comparing(SaltLotView::opened).reversed().thenComparing(SaltLotView::lot));
        return lots;
    }

    /** What its batches alone say of a lot. */
    private record Lot(List<Made> batches, double mean, double variance) {

        static Lot of(List<Made> batches) {
            double weights = 0;
            double sum = 0;
            for (Made batch : batches) {
                double weight = 1 / (batch.deviation() * batch.deviation());
                weights += weight;
                sum += weight * batch.yield();
            }
            return new Lot(batches, sum / weights, 1 / weights);
        }
    }

    private SaltLotView view(Lot own, List<Lot> others) {
        List<Made> batches = own.batches();
        // Each lot is one draw from what the product yields, known as well as its batches tell.
        double weights = 1 / (STATED_SPREAD * STATED_SPREAD);
        double sum = business.current().saltYield() * weights;
        for (Lot other : others) {
            double weight = 1 / (other.variance() + LOTS_SPREAD * LOTS_SPREAD);
            weights += weight;
            sum += weight * other.mean();
        }
        double expected = sum / weights;
        double spread = Math.sqrt(1 / weights + LOTS_SPREAD * LOTS_SPREAD);
        LocalDate opened =
                batches.stream().map(Made::day).min(Comparator.naturalOrder()).orElseThrow();
        LocalDate last =
                batches.stream().map(Made::day).max(Comparator.naturalOrder()).orElseThrow();
        return new SaltLotView(
                batches.getFirst().lot(),
                batches.size(),
                opened,
                last,
                SaltYield.of(
                        expected,
                        spread,
                        batches.stream()
                                .map(batch -> new SaltYield.Measured(
                                        batch.yield(), batch.deviation(), weeks(opened, batch.day())))
                                .toList()),
                own.mean(),
                expected,
                (own.mean() - expected) / Math.sqrt(spread * spread + own.variance()));
    }

    private static double weeks(LocalDate opened, LocalDate day) {
        return Math.max(0, ChronoUnit.DAYS.between(opened, day)) / DAYS_PER_WEEK;
    }

    /** Lots are written by hand. */
    private static String key(String lot) {
        return lot.strip().toLowerCase(Locale.ROOT);
    }

    /** One row of a batch that was measured. */
    private record Row(String lot, LocalDate day, double litres, double saltKg, ReadingId reading, double celsius) {}

    /** @param since lots that were used last before that are left out, unless something of them is left */
    private List<Made> made(LocalDate since) {
        List<Row> rows = jdbc.sql("""
                        with remembered as (
                            select lower(trim(salt_lot)) as lot
                            from water_batch
                            where salt_lot is not null and made_at >= :since
                            union
                            select lower(trim(l.number))
                            from stock_lot l
                            join stock_item i on i.id = l.item_id and i.kind = 'SALT'
                            join stock_balance p on p.lot_id = l.id and p.account in ('DEPOT', 'VAN') and p.amount > 0
                        )
                        select b.salt_lot, b.made_at, b.litres, b.salt_kg, coalesce(b.reading_id, s.reading_id) as reading_id,
                               s.celsius
                        from remembered r
                        join water_batch b on lower(trim(b.salt_lot)) = r.lot
                        left join lateral (
                            select reading_id, celsius, kind from water_batch_step
                            where batch_id = b.id
                            order by position desc
                            limit 1) s on s.kind = 'MEASURED'
                        where b.salt_kg > 0 and coalesce(b.reading_id, s.reading_id) is not null
                        order by b.number
                        """)
                .param("since", since.atStartOfDay(days.zone()).toInstant().atOffset(ZoneOffset.UTC))
                .query((row, number) -> {
                    double celsius = row.getDouble("celsius");
                    return new Row(
                            row.getString("salt_lot"),
                            days.of(row.getObject("made_at", OffsetDateTime.class)
                                    .toInstant()),
                            row.getDouble("litres"),
                            row.getDouble("salt_kg"),
                            new ReadingId(row.getObject("reading_id", UUID.class)),
                            row.wasNull() ? USUAL.celsius() : celsius);
                })
                .list();
        Map<ReadingId, ReadingView> found =
                readings.find(rows.stream().map(Row::reading).toList());
        return rows.stream()
                .flatMap(
                        row -> Optional.ofNullable(found.get(row.reading()))
                                .flatMap(reading -> made(row, reading.assessment()))
                                .stream())
                .toList();
    }

    /** Nothing where the instrument turned out to decide nothing, or where no salt mix yields what it came to. */
    private static Optional<Made> made(Row row, AssessmentView assessment) {
        if (!assessment.decides()) {
            return Optional.empty();
        }
        return assessment.salinity().filter(salinity -> salinity > 0).flatMap(salinity -> {
            double yield = SaltYield.ofBatch(
                    Mass.ofKilograms(row.saltKg()),
                    Volume.ofLitres(row.litres()),
                    Salinity.ofPractical(salinity),
                    Temperature.ofCelsius(row.celsius()));
            if (yield < SMALLEST || yield > 1) {
                return Optional.empty();
            }
            double uncertain = assessment
                            .salinityUncertainty()
                            .map(expanded -> expanded / 2)
                            .orElse(USUAL_SALINITY)
                    / salinity;
            double part = Math.sqrt(uncertain * uncertain + VOLUME_PART * VOLUME_PART + SALT_PART * SALT_PART);
            return Optional.of(new Made(row.lot(), row.day(), yield, yield * part));
        });
    }
}
