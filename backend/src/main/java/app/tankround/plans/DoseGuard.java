package app.tankround.plans;

import app.tankround.chemistry.Salt;
import app.tankround.chemistry.SupplementDose;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Alkalinity;
import app.tankround.units.MassConcentration;
import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Looks at every dose before it counts, whoever enters it: not within the product's interval, not above what a day may
 * bring, alkalinity and calcium never together, copper where it kills, and nothing that must not reach a plate. Always by
 * the net volume.
 */
@Service
@Transactional
public class DoseGuard {

    /** dKH; copper is not given to fresh water of less than 50 mg/L of CaCO3: extension practice, from memory. */
    static final double SOFT_DKH =
            Alkalinity.ofMilligramsPerLitreCalciumCarbonate(50).inDkh();

    /** Between alkalinity and calcium, so that they do not meet: own choice. */
    private static final Duration APART = Duration.ofHours(12);

    private static final Duration DAY = Duration.ofDays(1);
    private static final double ROUNDING = 1.02;

    /** Words of names whose animals copper kills or harms: invertebrates, rays and sharks. As far as names tell. */
    private static final Set<String> COPPER_KILLS = Set.of(
            "shrimp",
            "prawn",
            "crab",
            "lobster",
            "crayfish",
            "snail",
            "clam",
            "mussel",
            "oyster",
            "scallop",
            "octopus",
            "squid",
            "cuttlefish",
            "coral",
            "anemone",
            "zoanthid",
            "mushroom",
            "gorgonian",
            "jellyfish",
            "urchin",
            "starfish",
            "sea star",
            "brittle star",
            "cucumber",
            "sponge",
            "tunicate",
            "worm",
            "nudibranch",
            "shark",
            "ray",
            "stingray",
            "skate",
            "polyp");

    /**
     * A dose as entered.
     *
     * @param key names the line, so that a corrected entry counts once
     * @param unit mL or g
     * @param day of the business
     * @param givenBecause why it was given although the guard speaks against it; empty before anybody gave it
     */
    public record Dose(
            String key,
            WaterSystemView system,
            String product,
            double amount,
            String unit,
            Instant at,
            LocalDate day,
            Optional<String> givenBecause) {}

    private record Given(String product, double amount, String unit, Instant at) {}

    private final JdbcClient jdbc;
    private final DoseRules rules;
    private final SafeRates rates;
    private final PlanBasis basis;
    private final WaterSystems systems;

    DoseGuard(JdbcClient jdbc, DoseRules rules, SafeRates rates, PlanBasis basis, WaterSystems systems) {
        this.jdbc = jdbc;
        this.rules = rules;
        this.rates = rates;
        this.basis = basis;
        this.systems = systems;
    }

    /**
     * Checks a dose.
     *
     * @return codes of what to look at before it is given; empty for most products
     * @throws FieldRefusal if it must not be given; where a reason is given why it was all the same, only what needs a
     *     veterinarian or kills by its nature stays refused
     */
    @Transactional(readOnly = true)
    public List<String> check(Dose dose) {
        Optional<DoseRuleView> rule = rules.of(dose.product());
        DoseKind kind = kind(dose, rule);
        if (dose.system().eaten()
                && kind.needsOrderWhereEaten()
                && rules.inForce(dose.system().id(), dose.product(), dose.day()).isEmpty()) {
            throw new FieldRefusal("product", "plans.dose.eaten", dose.product());
        }
        if (kind == DoseKind.COPPER) {
            checkCopper(dose.system());
        }
        if (dose.givenBecause().isEmpty()) {
            rule.ifPresent(known -> checkRule(dose, known));
            salt(dose.product()).ifPresent(salt -> checkSalt(dose, salt));
        }
        return kind == DoseKind.MEDICATION || kind == DoseKind.COPPER
                ? List.of("plans.dose.before-medicine")
                : List.of();
    }

    /** Remembers a dose of a product that is guarded; entered again, it counts once. */
    public void given(Dose dose) {
        Optional<DoseRuleView> rule = rules.of(dose.product());
        boolean guarded = rule.isPresent() || salt(dose.product()).isPresent() || kind(dose, rule) != DoseKind.OTHER;
        if (!guarded) {
            jdbc.sql("delete from dose_given where key = :key")
                    .param("key", dose.key())
                    .update();
            return;
        }
        jdbc.sql("""
                        insert into dose_given (key, water_system_id, product, amount, unit, given_at)
                        values (:key, :system, :product, :amount, :unit, :at)
                        on conflict (key) do update
                        set product = excluded.product, amount = excluded.amount, unit = excluded.unit,
                            given_at = excluded.given_at
                        """)
                .param("key", dose.key())
                .param("system", dose.system().id().value())
                .param("product", dose.product().strip())
                .param("amount", dose.amount())
                .param("unit", dose.unit())
                .param("at", dose.at().atOffset(ZoneOffset.UTC))
                .update();
    }

    private static DoseKind kind(Dose dose, Optional<DoseRuleView> rule) {
        return rule.map(DoseRuleView::kind)
                .or(() -> DoseKind.named(dose.product()))
                .orElse(DoseKind.OTHER);
    }

    private void checkCopper(WaterSystemView system) {
        String animals = systems.livestock(system.id()).stream()
                .filter(animal -> animal.quantity() > 0 && copperKills(animal))
                .map(LivestockView::commonName)
                .collect(Collectors.joining(", "));
        if (system.kind() == SystemKind.REEF || !animals.isEmpty()) {
            throw new FieldRefusal("product", "plans.dose.copper-animals", animals);
        }
        if (!system.kind().isSalt()) {
            double alkalinity = Optional.ofNullable(basis.believed(system.id()).get(Quantity.ALKALINITY))
                    .orElseThrow(() -> new FieldRefusal("product", "plans.dose.copper-unknown"));
            if (alkalinity < SOFT_DKH) {
                throw new FieldRefusal("product", "plans.dose.copper-soft", text(alkalinity), text(SOFT_DKH));
            }
        }
    }

    private static boolean copperKills(LivestockView animal) {
        List<String> words =
                Arrays.asList(animal.commonName().toLowerCase(Locale.ROOT).split("[^a-z]+"));
        String whole = " " + String.join(" ", words) + " ";
        return COPPER_KILLS.stream()
                .anyMatch(word -> whole.contains(" " + word + " ") || whole.contains(" " + word + "s "));
    }

    private void checkRule(Dose dose, DoseRuleView rule) {
        if (rule.kind() == DoseKind.CONDITIONER) {
            return;
        }
        rule.leastHours()
                .ifPresent(hours -> doses(dose, Duration.ofHours(hours)).stream()
                        .filter(given ->
                                given.product().equalsIgnoreCase(dose.product().strip()))
                        .findFirst()
                        .ifPresent(earlier -> {
                            throw new FieldRefusal(
                                    "product", "plans.dose.too-soon", dose.product(), hours, day(earlier.at()));
                        }));
        if (rule.mostPerDay().isPresent()) {
            if (!rule.unit().equals(dose.unit())) {
                throw new FieldRefusal("unit", "plans.dose.other-unit", dose.unit(), rule.unit());
            }
            double most = rule.mostPerDay().get() * dose.system().netVolume().litres() / 100;
            double before = sum(dose, dose.product());
            if (before + dose.amount() > most * ROUNDING) {
                throw new FieldRefusal(
                        "amount",
                        "plans.dose.too-much",
                        text(dose.amount()),
                        text(Math.max(0, most - before)),
                        dose.unit(),
                        text(dose.system().netVolume().litres()));
            }
        }
    }

    /** A salt by its formula: what it changes in a day stays within the safe rate of the system. */
    private void checkSalt(Dose dose, Salt salt) {
        Quantity quantity = Quantity.valueOf(salt.raises().name());
        if (!dose.unit().equals("g")) {
            throw new FieldRefusal("unit", "plans.dose.other-unit", dose.unit(), "g");
        }
        Optional<Salt.Raises> enemy = switch (salt.raises()) {
            case ALKALINITY -> Optional.of(Salt.Raises.CALCIUM);
            case CALCIUM -> Optional.of(Salt.Raises.ALKALINITY);
            case MAGNESIUM -> Optional.empty();
        };
        boolean met = doses(dose, APART).stream()
                .flatMap(given -> salt(given.product()).stream())
                .anyMatch(other -> enemy.filter(other.raises()::equals).isPresent());
        if (met) {
            throw new FieldRefusal("product", "plans.dose.together", dose.product());
        }
        rates.of(dose.system().id(), quantity).raising().ifPresent(perDay -> {
            double most = gramsFor(salt, dose.system().netVolume(), perDay);
            double before = sum(dose, salt.formula());
            if (before + dose.amount() > most * ROUNDING) {
                throw new FieldRefusal(
                        "amount",
                        "plans.dose.too-much",
                        text(dose.amount()),
                        text(Math.max(0, most - before)),
                        dose.unit(),
                        text(dose.system().netVolume().litres()));
            }
        });
    }

    private static double gramsFor(Salt salt, Volume volume, double change) {
        return salt.raises() == Salt.Raises.ALKALINITY
                ? SupplementDose.forAlkalinity(salt, volume, Alkalinity.ofDkh(0), Alkalinity.ofDkh(change), 1)
                        .inGrams()
                : SupplementDose.forMetal(salt, volume, new MassConcentration(0), new MassConcentration(change), 1)
                        .inGrams();
    }

    private static Optional<Salt> salt(String product) {
        return Arrays.stream(Salt.values())
                .filter(salt -> salt.formula().equalsIgnoreCase(product.strip()))
                .findFirst();
    }

    private double sum(Dose dose, String product) {
        return doses(dose, DAY).stream()
                .filter(given -> given.product().equalsIgnoreCase(product.strip())
                        && given.unit().equals(dose.unit()))
                .mapToDouble(Given::amount)
                .sum();
    }

    /** Guarded doses to the same system nearer than that, before or after, but for this line itself. */
    private List<Given> doses(Dose dose, Duration within) {
        return jdbc.sql("""
                        select product, amount, unit, given_at
                        from dose_given
                        where water_system_id = :system and key <> :key and given_at > :from and given_at < :until
                        order by given_at desc
                        """)
                .param("system", dose.system().id().value())
                .param("key", dose.key())
                .param("from", dose.at().minus(within).atOffset(ZoneOffset.UTC))
                .param("until", dose.at().plus(within).atOffset(ZoneOffset.UTC))
                .query((row, number) -> new Given(
                        row.getString("product"),
                        row.getDouble("amount"),
                        row.getString("unit"),
                        row.getObject("given_at", OffsetDateTime.class).toInstant()))
                .list();
    }

    private static String day(Instant instant) {
        return LocalDate.ofInstant(instant, ZoneOffset.UTC).toString();
    }

    private static String text(double value) {
        return new BigDecimal(new BigDecimal(value)
                        .round(new MathContext(3))
                        .stripTrailingZeros()
                        .toPlainString())
                .toPlainString();
    }
}
