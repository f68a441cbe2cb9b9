package app.tankround.loads.web;

import app.tankround.loads.LoadTerms;
import app.tankround.loads.LoadTerms.Cost;
import app.tankround.loads.LoadTerms.Kind;
import app.tankround.loads.LoadTermsStore;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import app.tankround.web.VersionedForm;
import jakarta.servlet.http.HttpServletResponse;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** How sure loads are to be enough, and what that rests on. */
@Controller
class LoadTermsController {

    /** The terms as a form sends them; a box that is not ticked sends nothing. */
    record TermsForm(
            int version,
            boolean byUse,
            @Nullable String waterFew,
            @Nullable String waterMany,
            @Nullable String saltFew,
            @Nullable String saltMany,
            @Nullable String socksFew,
            @Nullable String socksMany,
            @Nullable String dosesFew,
            @Nullable String dosesMany,
            @Nullable String safetyPercent)
            implements VersionedForm<TermsForm> {

        static TermsForm of(LoadTerms terms) {
            Map<Kind, Cost> costs = terms.costs();
            return new TermsForm(
                    terms.version(),
                    terms.byUse(),
                    few(costs, Kind.WATER),
                    many(costs, Kind.WATER),
                    few(costs, Kind.SALT),
                    many(costs, Kind.SALT),
                    few(costs, Kind.SOCKS),
                    many(costs, Kind.SOCKS),
                    few(costs, Kind.DOSES),
                    many(costs, Kind.DOSES),
                    terms.safetyPercent().toPlainString());
        }

        private static @Nullable String few(Map<Kind, Cost> costs, Kind kind) {
            return Optional.ofNullable(costs.get(kind))
                    .map(cost -> cost.few().toPlainString())
                    .orElse(null);
        }

        private static @Nullable String many(Map<Kind, Cost> costs, Kind kind) {
            return Optional.ofNullable(costs.get(kind))
                    .map(cost -> cost.many().toPlainString())
                    .orElse(null);
        }

        @Override
        public TermsForm withVersion(int newest) {
            return new TermsForm(
                    newest,
                    byUse,
                    waterFew,
                    waterMany,
                    saltFew,
                    saltMany,
                    socksFew,
                    socksMany,
                    dosesFew,
                    dosesMany,
                    safetyPercent);
        }

        Optional<LoadTerms> toTerms(FormReader reader) {
            Optional<Cost> water = cost(reader, "water", waterFew, waterMany);
            Optional<Cost> salt = cost(reader, "salt", saltFew, saltMany);
            Optional<Cost> socks = cost(reader, "socks", socksFew, socksMany);
            Optional<Cost> doses = cost(reader, "doses", dosesFew, dosesMany);
            Optional<BigDecimal> safety = reader.requiredNumber(
                    "safetyPercent", safetyPercent, LoadTerms.LEAST_PERCENT, LoadTerms.MOST_PERCENT);
            if (!reader.accepted()) {
                return Optional.empty();
            }
            return Optional.of(new LoadTerms(
                    byUse,
                    Map.of(
                            Kind.WATER,
                            water.orElseThrow(),
                            Kind.SALT,
                            salt.orElseThrow(),
                            Kind.SOCKS,
                            socks.orElseThrow(),
                            Kind.DOSES,
                            doses.orElseThrow()),
                    safety.orElseThrow(),
                    version));
        }

        private static Optional<Cost> cost(
                FormReader reader, String name, @Nullable String few, @Nullable String many) {
            Optional<BigDecimal> tooFew =
                    reader.requiredNumber(name + "Few", few, LoadTerms.LEAST_COST, LoadTerms.MOST_COST);
            Optional<BigDecimal> tooMany =
                    reader.requiredNumber(name + "Many", many, LoadTerms.LEAST_COST, LoadTerms.MOST_COST);
            return tooFew.flatMap(one -> tooMany.map(other -> new Cost(one, other)));
        }
    }

    private final LoadTermsStore terms;

    LoadTermsController(LoadTermsStore terms) {
        this.terms = terms;
    }

    @GetMapping("/loads/terms")
    String show(Model model) {
        model.addAttribute("form", TermsForm.of(terms.current()));
        return page(model);
    }

    @PostMapping("/loads/terms")
    String choose(
            @ModelAttribute("form") TermsForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        form.toTerms(new FormReader(result, locale)),
                        terms::choose,
                        () -> TermsForm.of(terms.current()))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/loads/terms";
        }
        return page(model);
    }

    private String page(Model model) {
        model.addAttribute("levels", terms.current().percents());
        return "loads/terms";
    }
}
