package app.tankround.plans;

import app.tankround.chemistry.AmmoniaOnRise;
import app.tankround.chemistry.Salt;
import app.tankround.plans.DoseGuard.Dose;
import app.tankround.plans.DoseGuard.Note;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Alkalinity;
import app.tankround.units.MassConcentration;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.web.FieldRefusal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Holds what raises pH against the ammonia that is there: a rise turns harmless ammonium into ammonia. */
@Component
class RisingPh {

    /** mg/L of total ammonia from which nothing that raises pH goes in, whatever the pH: common practice, no source. */
    static final double MUCH_AMMONIA = 2;

    /** mg/L of total ammonia that is looked into; own choice, above what a colour kit shows of clean water. */
    static final double NOTICEABLE_AMMONIA = 0.5;

    static final Set<String> REFUSALS =
            Set.of("plans.dose.ammonia-harms", "plans.dose.ammonia-much", "plans.dose.ammonia-blind");

    private static final double SEAWATER = 35;
    /** Of a product whose strength is not known, where the business has no safe rate of pH: own choice. */
    private static final double USUAL_RISE = 0.2;

    private static final double HIGHEST_PH = 11;

    private final PlanBasis basis;
    private final SafeRates rates;

    RisingPh(PlanBasis basis, SafeRates rates) {
        this.basis = basis;
        this.rates = rates;
    }

    /** Whether nothing may raise pH that far. */
    static boolean forbids(AmmoniaOnRise rise, double total) {
        return rise.harms() || total >= MUCH_AMMONIA && rise.phAfter() > rise.phBefore();
    }

    /**
     * What a dose that raises pH makes of the ammonia.
     *
     * @param salt where it is one of known strength; of other products pH is taken to rise as far as a day may bring
     * @throws FieldRefusal if it would harm, or might
     */
    Optional<Note> check(Dose dose, Optional<Salt> salt) {
        double total = basis.ammonia(dose.system().id()).orElse(0.0);
        if (total == 0) {
            return Optional.empty();
        }
        Map<Quantity, Double> known = basis.believed(dose.system().id());
        Optional<AmmoniaOnRise> looked = rise(dose, salt, total, known);
        String product = dose.product().strip();
        if (looked.isEmpty()) {
            if (total >= NOTICEABLE_AMMONIA) {
                throw new FieldRefusal("product", "plans.dose.ammonia-blind", product, DoseGuard.text(total));
            }
            return Optional.of(new Note("plans.dose.ammonia-unknown", List.of(DoseGuard.text(total))));
        }
        AmmoniaOnRise rise = looked.get();
        List<String> args = List.of(
                DoseGuard.text(rise.phAfter()),
                DoseGuard.text(rise.after().milligramsPerLitre()),
                DoseGuard.text(total),
                DoseGuard.text(rise.before().milligramsPerLitre()),
                product,
                DoseGuard.text(Math.min(MUCH_AMMONIA, rise.bearableTotal().milligramsPerLitre())));
        if (forbids(rise, total)) {
            String code = rise.harms() ? "plans.dose.ammonia-harms" : "plans.dose.ammonia-much";
            throw new FieldRefusal("product", code, args.toArray());
        }
        return Optional.of(new Note("plans.dose.ammonia", args));
    }

    /** Empty where pH or temperature is not known or no formula covers the water. */
    private Optional<AmmoniaOnRise> rise(Dose dose, Optional<Salt> salt, double total, Map<Quantity, Double> known) {
        @Nullable Double ph = known.get(Quantity.PH);
        @Nullable Double warmth = known.get(Quantity.TEMPERATURE);
        if (ph == null || warmth == null) {
            return Optional.empty();
        }
        double usual = dose.system().kind().isSalt() ? SEAWATER : 0;
        try {
            return Optional.of(AmmoniaOnRise.of(
                    new MassConcentration(total),
                    ph,
                    phAfter(dose, salt, ph, Optional.ofNullable(known.get(Quantity.ALKALINITY))),
                    Temperature.ofCelsius(warmth),
                    Salinity.ofPractical(known.getOrDefault(Quantity.SALINITY, usual))));
        } catch (OutOfRangeException beyond) {
            return Optional.empty();
        }
    }

    private double phAfter(Dose dose, Optional<Salt> salt, double ph, Optional<Double> alkalinity) {
        boolean weighed =
                dose.unit().equals("g") && alkalinity.filter(known -> known > 0).isPresent();
        if (weighed && salt.isPresent()) {
            double before = alkalinity.orElseThrow();
            double after = before
                    + dose.amount()
                            / DoseGuard.gramsFor(salt.get(), dose.system().netVolume(), 1);
            return AmmoniaOnRise.phWithAlkalinity(ph, Alkalinity.ofDkh(before), Alkalinity.ofDkh(after));
        }
        return Math.min(HIGHEST_PH, ph + perDay(dose.system().id()));
    }

    /** How far pH of a system may rise in a day. */
    double perDay(WaterSystemId system) {
        return rates.of(system, Quantity.PH).raising().orElse(USUAL_RISE);
    }
}
