package app.tankround.stock.web;

import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.persistence.Uuids;
import app.tankround.stock.Catalogue;
import app.tankround.stock.ClientOwned;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockItemId;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.time.Clock;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What a client keeps at a site: counted there, by whoever is there. */
@Controller
class ClientOwnedController {

    private static final BigDecimal MOST = BigDecimal.valueOf(1_000_000);

    private final SiteService sites;
    private final ClientOwned owned;
    private final Catalogue catalogue;
    private final StockWords words;
    private final Clock clock;

    ClientOwnedController(SiteService sites, ClientOwned owned, Catalogue catalogue, StockWords words, Clock clock) {
        this.sites = sites;
        this.owned = owned;
        this.catalogue = catalogue;
        this.words = words;
        this.clock = clock;
    }

    /** How many of an item there are, as the page sends it. */
    record CountThere(
            @Nullable String id,
            @Nullable String item,
            @Nullable String counted,
            @Nullable String why) {}

    @GetMapping("/sites/{id}/stock")
    String there(@PathVariable SiteId id, Model model, Locale locale) {
        model.addAttribute("form", new CountThere(Uuids.next(clock.instant()).toString(), null, null, null));
        return show(id, model, locale);
    }

    @PostMapping("/sites/{id}/stock")
    String count(
            @PathVariable SiteId id,
            @ModelAttribute("form") CountThere form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        sites.require(id);
        FormReader reader = new FormReader(result, locale);
        UUID count = FormReader.madeWith("count", form.id());
        Optional<StockItemId> item = reader.id("item", form.item())
                .map(StockItemId::of)
                .filter(each -> catalogue.find(each).isPresent());
        if (item.isEmpty() && !result.hasErrors()) {
            reader.refuse("item", "stock.choice-missing");
        }
        Optional<BigDecimal> counted = reader.requiredNumber("counted", form.counted(), BigDecimal.ZERO, MOST);
        if (!result.hasErrors()) {
            try {
                catalogue.count(
                        count,
                        item.orElseThrow(),
                        StockAccount.clientOwned(id),
                        counted.orElseThrow(),
                        Objects.requireNonNullElse(form.why(), ""));
                redirect.addFlashAttribute("flash", "stock.counted-there");
                return "redirect:/sites/" + id + "/stock";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return show(id, model, locale);
    }

    /** An item there in words. */
    record There(String name, String amount) {}

    private String show(SiteId id, Model model, Locale locale) {
        model.addAttribute("site", sites.require(id));
        model.addAttribute(
                "there",
                owned.at(id).stream()
                        .map(each -> new There(
                                words.name(each.item(), locale),
                                words.amount(each.amount(), each.item().unit(), locale)))
                        .toList());
        model.addAttribute(
                "items",
                catalogue.all().stream()
                        .map(item -> new Choice(
                                item.id().toString(),
                                words.name(item, locale) + ", " + words.unit(item.unit(), locale)))
                        .toList());
        return "stock/client-owned";
    }
}
