package app.tankround.instruments;

import app.tankround.chemistry.CorrectedReading;
import app.tankround.chemistry.InstrumentCorrection;
import app.tankround.chemistry.WeighedSolution;
import app.tankround.chemistry.WeighedSolution.Weighing;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.UnitConversions;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Standards made up on a balance: their value and uncertainty follow from what was weighed and how far the balance is right. */
@Service
@Transactional
public class MadeUpStandards {

    private static final BigDecimal MOST_GRAMS = new BigDecimal("100000");
    private static final BigDecimal LEAST_PURITY = new BigDecimal("50");
    private static final BigDecimal WHOLE = new BigDecimal("100");
    private static final BigDecimal MOST_GIVE_OR_TAKE = new BigDecimal("20");
    private static final double PERCENT = 100;
    private static final int DECIMALS = 2;

    /** The handbook's indices behind the brine hold there. */
    private static final BigDecimal MADE_UP_AT = new BigDecimal("20");

    private final StandardRegister standards;
    private final StandardRecipes recipes;
    private final CheckHistories histories;
    private final BusinessDay businessDay;

    MadeUpStandards(
            StandardRegister standards, StandardRecipes recipes, CheckHistories histories, BusinessDay businessDay) {
        this.standards = standards;
        this.recipes = recipes;
        this.histories = histories;
        this.businessDay = businessDay;
    }

    @Transactional(readOnly = true)
    public Optional<StandardRecipe> recipe(StandardId id) {
        return recipes.find(id);
    }

    /**
     * The balances that a made-up standard was weighed on and that were off then, or decided nothing, as is known by now; its
     * value is in doubt because of them. Empty if it was not made up.
     */
    @Transactional(readOnly = true)
    public List<InstrumentView> doubtedBalances(StandardId id) {
        return recipes.find(id)
                .map(recipe -> doubted(recipe, histories.of(balances(recipe))))
                .orElse(List.of());
    }

    /** The same of all made-up standards whose value is in doubt; each balance is asked for once. */
    @Transactional(readOnly = true)
    public Map<StandardId, List<InstrumentView>> doubtedBalances() {
        Map<StandardId, StandardRecipe> all = recipes.all();
        Map<InstrumentId, CalibrationHistory> known = histories.of(all.values().stream()
                .flatMap(recipe -> balances(recipe).stream())
                .collect(Collectors.toSet()));
        Map<StandardId, List<InstrumentView>> found = new HashMap<>();
        all.forEach((id, recipe) -> {
            List<InstrumentView> doubted = doubted(recipe, known);
            if (!doubted.isEmpty()) {
                found.put(id, doubted);
            }
        });
        return found;
    }

    private static Set<InstrumentId> balances(StandardRecipe recipe) {
        Set<InstrumentId> balances = new LinkedHashSet<>();
        balances.add(recipe.balance());
        recipe.waterBalance().ifPresent(balances::add);
        return balances;
    }

    private List<InstrumentView> doubted(StandardRecipe recipe, Map<InstrumentId, CalibrationHistory> known) {
        Instant at = businessDay.endOf(recipe.madeOn());
        return balances(recipe).stream()
                .flatMap(balance -> Optional.ofNullable(known.get(balance)).stream())
                .filter(balance -> wasOff(balance, at))
                .map(CalibrationHistory::instrument)
                .toList();
    }

    private static boolean wasOff(CalibrationHistory balance, Instant at) {
        return balance.standingAt(at) != Standing.IN_USE || balance.usualAt(at).doubtful();
    }

    /** Balances that may be used, by code. */
    @Transactional(readOnly = true)
    public List<InstrumentView> balances() {
        return histories.all().values().stream()
                .map(CalibrationHistory::instrument)
                .filter(instrument -> instrument.kind() == InstrumentKind.BALANCE)
                .filter(instrument -> instrument.retiredOn().isEmpty())
                .toList();
    }

    /**
     * Adds it with its recipe.
     *
     * @throws FieldRefusal if something stated cannot be, or a balance is suspect or condemned
     */
    public StandardId add(NewMadeUpStandard stated) {
        StandardRecipe recipe = stated.recipe();
        refuseIfWrong(recipe);
        Instant at = businessDay.endOf(recipe.madeOn());
        Weighing solute = weighing("soluteGrams", "balance", recipe.balance(), recipe.soluteGrams(), at);
        Weighing water = weighing(
                "waterGrams",
                recipe.waterBalance().isPresent() ? "waterBalance" : "balance",
                recipe.waterBalance().orElse(recipe.balance()),
                recipe.waterGrams(),
                at);
        WeighedSolution worth = worth(recipe, solute, water);
        StandardId id = standards.add(new NewStandard(
                stated.code(),
                stated.name(),
                recipe.standardKind(),
                Quantity.SALINITY,
                BigDecimal.valueOf(worth.salinity()).setScale(DECIMALS, RoundingMode.HALF_EVEN),
                MeasurementUnit.PRACTICAL_SALINITY,
                BigDecimal.valueOf(worth.expandedUncertainty()).setScale(DECIMALS, RoundingMode.UP),
                Optional.of(MADE_UP_AT),
                Optional.of(stated.code() + " " + recipe.madeOn()),
                Optional.of(recipe.madeOn()),
                Optional.empty(),
                stated.openDays(),
                Optional.empty(),
                Optional.empty()));
        recipes.insert(id, recipe);
        return id;
    }

    private void refuseIfWrong(StandardRecipe recipe) {
        Checked.past("madeOn", Optional.of(recipe.madeOn()), businessDay.today());
        Checked.number("soluteGrams", recipe.soluteGrams(), BigDecimal.ZERO, false, MOST_GRAMS);
        Checked.number("waterGrams", recipe.waterGrams(), BigDecimal.ZERO, false, MOST_GRAMS);
        Checked.number("purityPercent", recipe.purityPercent(), LEAST_PURITY, true, WHOLE);
        Checked.number("purityGiveOrTake", recipe.purityGiveOrTake(), BigDecimal.ZERO, true, MOST_GIVE_OR_TAKE);
    }

    private Weighing weighing(String field, String balanceField, InstrumentId id, BigDecimal grams, Instant at) {
        CalibrationHistory history = histories.of(id);
        InstrumentView balance = history.instrument();
        if (balance.kind() != InstrumentKind.BALANCE) {
            throw new FieldRefusal(balanceField, "instruments.no-balance", balance.code());
        }
        if (history.standingAt(at) != Standing.IN_USE) {
            throw new FieldRefusal(balanceField, "instruments.balance-decides-nothing", balance.code());
        }
        double shown = UnitConversions.convert(grams.doubleValue(), MeasurementUnit.GRAM, balance.unit());
        if (!balance.shows(BigDecimal.valueOf(shown))) {
            throw new FieldRefusal(field, "instruments.beyond-balance", grams.toPlainString(), balance.code());
        }
        CorrectedReading corrected = InstrumentCorrection.correct(history.history(), shown, at.getEpochSecond());
        try {
            return new Weighing(
                    UnitConversions.convert(corrected.value(), balance.unit(), MeasurementUnit.GRAM),
                    UnitConversions.convert(corrected.standardUncertainty(), balance.unit(), MeasurementUnit.GRAM));
        } catch (OutOfRangeException nothing) {
            throw new FieldRefusal(field, "instruments.beyond-balance", grams.toPlainString(), balance.code());
        }
    }

    private static WeighedSolution worth(StandardRecipe recipe, Weighing solute, Weighing water) {
        try {
            return WeighedSolution.of(
                    recipe.solute(),
                    solute,
                    recipe.purityPercent().doubleValue() / PERCENT,
                    recipe.purityGiveOrTake().doubleValue() / PERCENT,
                    water);
        } catch (OutOfRangeException tooStrong) {
            throw new FieldRefusal(
                    "soluteGrams",
                    "instruments.too-strong",
                    recipe.soluteGrams().toPlainString());
        }
    }
}
