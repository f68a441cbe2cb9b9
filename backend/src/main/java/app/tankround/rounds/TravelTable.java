package app.tankround.rounds;

import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.SiteTravel.Ends;
import app.tankround.rounds.solver.TravelEstimate;
import app.tankround.rounds.solver.TravelLeg;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * {@code travel-times.csv}: how long it takes from one site to another, by their codes; a site of one's own depot is one
 * too. {@code -} for minutes and km where it cannot be driven.
 */
@Component
class TravelTable implements CsvTable {

    private static final String CANNOT = "-";
    private static final String SELECT = "select from_site_id, to_site_id, seconds, metres from travel_leg ";
    private static final BigDecimal SECONDS_PER_MINUTE = BigDecimal.valueOf(60);
    private static final BigDecimal METRES_PER_KILOMETRE = BigDecimal.valueOf(1000);
    private static final BigDecimal MOST_MINUTES = BigDecimal.valueOf(1440);
    private static final BigDecimal MOST_KILOMETRES = BigDecimal.valueOf(5000);

    private final JdbcClient jdbc;
    private final SiteService sites;
    private final RoundTimes times;

    TravelTable(JdbcClient jdbc, SiteService sites, RoundTimes times) {
        this.jdbc = jdbc;
        this.sites = sites;
        this.times = times;
    }

    /** As it stands now. */
    SiteTravel travel() {
        TravelEstimate estimate = TravelEstimate.withDefaults();
        return new SiteTravel(
                legs().stream().collect(Collectors.toMap(Known::ends, Known::leg)), estimate, times.travel(estimate));
    }

    private record Known(Ends ends, Optional<TravelLeg> leg) {}

    private List<Known> legs() {
        return jdbc.sql(SELECT).query((row, number) -> known(row)).list();
    }

    private static Known known(ResultSet row) throws SQLException {
        return new Known(
                new Ends(
                        new SiteId(row.getObject("from_site_id", UUID.class)),
                        new SiteId(row.getObject("to_site_id", UUID.class))),
                row.getObject("seconds") == null
                        ? Optional.<TravelLeg>empty()
                        : Optional.of(new TravelLeg(row.getInt("seconds"), row.getInt("metres"))));
    }

    @Override
    public String name() {
        return "travel-times";
    }

    @Override
    public int order() {
        return 400;
    }

    @Override
    public List<String> columns() {
        return List.of("from", "to", "minutes", "km");
    }

    @Override
    public Stream<List<String>> rows() {
        Map<SiteId, String> codes = sites.all().stream().collect(Collectors.toMap(SiteView::id, SiteView::code));
        return legs().stream()
                .map(known -> List.of(
                        Optional.ofNullable(codes.get(known.ends().from())).orElse(""),
                        Optional.ofNullable(codes.get(known.ends().to())).orElse(""),
                        known.leg()
                                .map(leg -> plain(leg.seconds(), SECONDS_PER_MINUTE))
                                .orElse(CANNOT),
                        known.leg()
                                .map(leg -> plain(leg.metres(), METRES_PER_KILOMETRE))
                                .orElse(CANNOT)))
                .sorted((one, other) -> (one.get(0) + " " + one.get(1)).compareTo(other.get(0) + " " + other.get(1)));
    }

    /** With as many digits as give the same number back. */
    private static String plain(int number, BigDecimal per) {
        return BigDecimal.valueOf(number)
                .divide(per, 4, RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        SiteId from = site(row, "from");
        SiteId to = site(row, "to");
        if (from.equals(to)) {
            throw new CsvRefusal("to", "csv.travel-to-itself", row.required("to"));
        }
        Optional<Integer> seconds = number(row, "minutes", SECONDS_PER_MINUTE, MOST_MINUTES);
        Optional<Integer> metres = number(row, "km", METRES_PER_KILOMETRE, MOST_KILOMETRES);
        if (seconds.isPresent() != metres.isPresent()) {
            throw new CsvRefusal(seconds.isPresent() ? "km" : "minutes", "csv.travel-half");
        }
        Optional<Known> before = jdbc.sql(SELECT + "where from_site_id = :from and to_site_id = :to")
                .param("from", from.value())
                .param("to", to.value())
                .query((result, number) -> known(result))
                .optional();
        Optional<TravelLeg> wanted = seconds.map(found -> new TravelLeg(found, metres.orElseThrow()));
        if (before.map(Known::leg).filter(wanted::equals).isPresent()) {
            return CsvOutcome.UNCHANGED;
        }
        jdbc.sql("""
                        insert into travel_leg (from_site_id, to_site_id, seconds, metres)
                        values (:from, :to, :seconds, :metres)
                        on conflict (from_site_id, to_site_id) do update
                        set seconds = excluded.seconds, metres = excluded.metres
                        """)
                .param("from", from.value())
                .param("to", to.value())
                .param("seconds", wanted.map(TravelLeg::seconds).orElse(null))
                .param("metres", wanted.map(TravelLeg::metres).orElse(null))
                .update();
        return before.isPresent() ? CsvOutcome.CHANGED : CsvOutcome.CREATED;
    }

    private SiteId site(CsvRow row, String column) {
        String code = row.required(column);
        return sites.findByCode(code)
                .map(SiteView::id)
                .orElseThrow(() -> new CsvRefusal(column, "csv.reference-unknown", code));
    }

    private static Optional<Integer> number(CsvRow row, String column, BigDecimal per, BigDecimal most) {
        String text = row.required(column);
        if (text.equals(CANNOT)) {
            return Optional.empty();
        }
        BigDecimal number = CsvRow.number(column, text);
        if (number.signum() < 0 || number.compareTo(most) > 0) {
            throw new CsvRefusal(column, "csv.travel-range", text, most.toPlainString());
        }
        return Optional.of(
                number.multiply(per).setScale(0, RoundingMode.HALF_EVEN).intValueExact());
    }
}
