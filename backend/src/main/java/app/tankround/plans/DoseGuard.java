package app.tankround.plans;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.AmmoniaOnRise;
import app.tankround.chemistry.Salt;
import app.tankround.chemistry.SupplementDose;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Alkalinity;
import app.tankround.units.MassConcentration;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
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
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.i18n.LocaleContextHolder;
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
    private static final double SEAWATER = 35;
    /** Of the day's sum: what a scale and a rounded task may miss by. */
    private static final double ROUNDING = 0.02;

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
     * @param prepared whether a person said that all is ready for a medicine: media out, lamps off, the kit fits
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
            boolean prepared,
            Optional<String> givenBecause) {}

    /** Something to know of a dose that may be given; shown as the message of its code. */
    public record Note(String code, List<String> args) {

        public Note {
            args = List.copyOf(args);
        }
    }

    private record Given(String product, double amount, String unit, Instant at) {}

    private final JdbcClient jdbc;
    private final DoseRules rules;
    private final SafeRates rates;
    private final PlanBasis basis;
    private final PlanRows plans;
    private final WaterSystems systems;
    private final BusinessProfile business;

    DoseGuard(
            JdbcClient jdbc,
            DoseRules rules,
            SafeRates rates,
            PlanBasis basis,
            PlanRows plans,
            WaterSystems systems,
            BusinessProfile business) {
        this.jdbc = jdbc;
        this.rules = rules;
        this.rates = rates;
        this.basis = basis;
        this.plans = plans;
        this.systems = systems;
        this.business = business;
    }

    /**
     * Checks a dose.
     *
     * @return what to know of it; empty for most products
     * @throws FieldRefusal if it must not be given; where a reason is given why it was all the same, only what needs a
     *     veterinarian or kills by its nature stays refused
     */
    @Transactional(readOnly = true)
    public List<Note> check(Dose dose) {
        Optional<DoseRuleView> rule = rules.of(dose.product());
        Optional<Salt> salt = salt(dose.product());
        DoseKind kind = kind(dose.product(), rule);
        if (dose.system().eaten()) {
            checkEaten(dose, kind, rule.isPresent() || salt.isPresent());
        }
        if (kind == DoseKind.COPPER) {
            checkCopper(dose.system());
        }
        if (dose.givenBecause().isEmpty()) {
            if ((kind == DoseKind.MEDICATION || kind == DoseKind.COPPER) && !dose.prepared()) {
                throw new FieldRefusal("prepared", "plans.dose.before-medicine");
            }
            rule.ifPresent(known -> checkRule(dose, known));
            salt.ifPresent(known -> checkSalt(dose, known));
        }
        return salt.filter(known -> known.raises() == Salt.Raises.ALKALINITY)
                .flatMap(known -> checkAmmonia(dose, known))
                .map(List::of)
                .orElse(List.of());
    }

    /** The last day on which a product was given to a system. */
    @Transactional(readOnly = true)
    public Optional<LocalDate> lastGiven(WaterSystemId system, String product) {
        return jdbc.sql("""
                        select max(given_at)
                        from dose_given
                        where water_system_id = :system and lower(product) = lower(:product)
                        """)
                .param("system", system.value())
                .param("product", product.strip())
                .query(OffsetDateTime.class)
                .optional()
                .map(at -> LocalDate.ofInstant(at.toInstant(), business.zone()));
    }

    /** Remembers a dose of a product that is guarded; entered again, it counts once. */
    public void given(Dose dose) {
        Optional<DoseRuleView> rule = rules.of(dose.product());
        boolean guarded =
                rule.isPresent() || salt(dose.product()).isPresent() || kind(dose.product(), rule) != DoseKind.OTHER;
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

    private static DoseKind kind(String product, Optional<DoseRuleView> rule) {
        return DoseKind.of(product, rule.map(DoseRuleView::kind)).orElse(DoseKind.OTHER);
    }

    /** What reaches a plate needs a written order, and what nobody knows might be what needs one. */
    private void checkEaten(Dose dose, DoseKind kind, boolean known) {
        if (kind.needsOrderWhereEaten()
                && rules.inForce(dose.system().id(), dose.product(), dose.day()).isEmpty()) {
            throw new FieldRefusal("product", "plans.dose.eaten", dose.product());
        }
        if (!known && kind == DoseKind.OTHER && dose.givenBecause().isEmpty()) {
            throw new FieldRefusal("product", "plans.dose.eaten-unknown", dose.product());
        }
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
                                    "product",
                                    "plans.dose.too-soon",
                                    dose.product(),
                                    hours,
                                    words().moment(earlier.at(), business.zone()));
                        }));
        if (rule.mostPerDay().isPresent()) {
            if (!rule.unit().equals(dose.unit())) {
                throw new FieldRefusal("unit", "plans.dose.other-unit", dose.unit(), rule.unit());
            }
            double most = rule.mostPerDay().get() * dose.system().netVolume().litres() / 100;
            refuseAbove(dose, most - sum(dose, dose.product()), most);
        }
    }

    /** @param left of the day's sum {@code most} before this dose */
    private void refuseAbove(Dose dose, double left, double most) {
        if (dose.amount() > left + most * ROUNDING) {
            throw new FieldRefusal(
                    "amount",
                    "plans.dose.too-much",
                    text(dose.amount()),
                    text(Math.max(0, left)),
                    dose.unit(),
                    words().volume(dose.system().netVolume().litres()));
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
        Optional<PlanView> plan =
                plans.openOn(dose.system().id(), quantity).filter(open -> open.state() == PlanState.RUNNING);
        double besides = plan.map(running -> Math.max(0, running.addedPerDay() - running.usedPerDay()))
                .orElse(0.0);
        rates.of(dose.system().id(), quantity).raising().ifPresent(perDay -> {
            Volume volume = dose.system().netVolume();
            double most = gramsFor(salt, volume, perDay) / purity(salt, plan);
            double given = doses(dose, DAY).stream()
                    .mapToDouble(earlier -> salt(earlier.product())
                            .filter(other -> other.raises() == salt.raises()
                                    && earlier.unit().equals("g"))
                            .map(other -> earlier.amount() * purity(other, plan) / gramsFor(other, volume, perDay))
                            .orElse(0.0))
                    .sum();
            refuseAbove(dose, most * (1 - given - besides / perDay), most);
        });
    }

    /** As the plan that is followed states it for its product; else the salt is taken to be pure. */
    private static double purity(Salt salt, Optional<PlanView> plan) {
        return plan.filter(running -> running.salt().filter(salt::equals).isPresent())
                .map(PlanView::purity)
                .orElse(1.0);
    }

    /**
     * What a rise in alkalinity makes of the ammonia that is there.
     *
     * @throws FieldRefusal if it would harm and nobody says that it was given already
     */
    private Optional<Note> checkAmmonia(Dose dose, Salt salt) {
        WaterSystemId system = dose.system().id();
        double total = basis.ammonia(system).orElse(0.0);
        if (total == 0) {
            return Optional.empty();
        }
        Map<Quantity, Double> known = basis.believed(system);
        Optional<AmmoniaOnRise> rise = rise(dose, salt, total, known);
        if (rise.isEmpty()) {
            return Optional.of(new Note("plans.dose.ammonia-unknown", List.of(text(total))));
        }
        List<String> args =
                List.of(text(rise.get().phAfter()), text(rise.get().after().milligramsPerLitre()), text(total));
        if (rise.get().harms() && dose.givenBecause().isEmpty()) {
            throw new FieldRefusal("product", "plans.dose.ammonia-harms", args.toArray());
        }
        return Optional.of(new Note("plans.dose.ammonia", args));
    }

    /** Empty where something is not known or no formula covers the water. */
    private Optional<AmmoniaOnRise> rise(Dose dose, Salt salt, double total, Map<Quantity, Double> known) {
        @Nullable Double ph = known.get(Quantity.PH);
        @Nullable Double warmth = known.get(Quantity.TEMPERATURE);
        @Nullable Double before = known.get(Quantity.ALKALINITY);
        if (ph == null || warmth == null || before == null || !dose.unit().equals("g")) {
            return Optional.empty();
        }
        double after = before + dose.amount() / gramsFor(salt, dose.system().netVolume(), 1);
        double usual = dose.system().kind().isSalt() ? SEAWATER : 0;
        try {
            return Optional.of(AmmoniaOnRise.of(
                    new MassConcentration(total),
                    ph,
                    AmmoniaOnRise.phWithAlkalinity(ph, Alkalinity.ofDkh(before), Alkalinity.ofDkh(after)),
                    Temperature.ofCelsius(warmth),
                    Salinity.ofPractical(known.getOrDefault(Quantity.SALINITY, usual))));
        } catch (OutOfRangeException beyond) {
            return Optional.empty();
        }
    }

    private static double gramsFor(Salt salt, Volume volume, double change) {
        return salt.raises() == Salt.Raises.ALKALINITY
                ? SupplementDose.forAlkalinity(salt, volume, Alkalinity.ofDkh(0), Alkalinity.ofDkh(change), 1)
                        .inGrams()
                : SupplementDose.forMetal(salt, volume, new MassConcentration(0), new MassConcentration(change), 1)
                        .inGrams();
    }

    /** What a product raises that is named as a salt, by its formula or its name; empty for every other product. */
    public static Optional<Quantity> raises(String product) {
        return salt(product).map(salt -> Quantity.valueOf(salt.raises().name()));
    }

    /** A salt by its formula or its name, however they are written; calcium chloride alone is taken for the strongest. */
    private static Optional<Salt> salt(String product) {
        String named = letters(product);
        return named.equals("calciumchloride")
                ? Optional.of(Salt.CALCIUM_CHLORIDE_ANHYDROUS)
                : Arrays.stream(Salt.values())
                        .filter(salt -> letters(salt.formula()).equals(named)
                                || letters(salt.name()).equals(named))
                        .findFirst();
    }

    private static String letters(String text) {
        return text.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]", "");
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

    private PlanWords words() {
        return new PlanWords(business.unitSystem(), LocaleContextHolder.getLocale());
    }

    private static String text(double value) {
        return new BigDecimal(new BigDecimal(value)
                        .round(new MathContext(3))
                        .stripTrailingZeros()
                        .toPlainString())
                .toPlainString();
    }
}
