package app.tankround.stock.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.persistence.Uuids;
import app.tankround.stock.Catalogue;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.SupplierId;
import app.tankround.stock.Suppliers;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Who things are bought from, and how each is bought. */
@Controller
class SupplierController {

    private final Suppliers suppliers;
    private final Catalogue catalogue;
    private final StockWords words;
    private final BusinessProfile business;
    private final Clock clock;

    SupplierController(
            Suppliers suppliers, Catalogue catalogue, StockWords words, BusinessProfile business, Clock clock) {
        this.suppliers = suppliers;
        this.catalogue = catalogue;
        this.words = words;
        this.business = business;
        this.clock = clock;
    }

    @GetMapping("/stock/suppliers/new")
    String blank(Model model) {
        return page(SupplierId.of(Uuids.next(clock.instant())), model);
    }

    @GetMapping("/stock/suppliers/{id}")
    String page(@PathVariable SupplierId id, Model model) {
        model.addAttribute("form", suppliers.find(id).map(SupplierForm::of).orElseGet(() -> SupplierForm.blank(id)));
        model.addAttribute("supplierId", id);
        return "stock/supplier";
    }

    @PostMapping("/stock/suppliers/{id}")
    String save(
            @PathVariable SupplierId id,
            @ModelAttribute("form") SupplierForm form,
            BindingResult result,
            Model model,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                suppliers.save(form.toCommand(id));
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/stock/orders";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        model.addAttribute("supplierId", id);
        return "stock/supplier";
    }

    @GetMapping("/stock/{id}/supply/edit")
    String supply(@PathVariable StockItemId id, Model model, Locale locale) {
        model.addAttribute("form", suppliers.supply(id).map(SupplyForm::of).orElseGet(SupplyForm::blank));
        return supply(catalogue.require(id), model, locale);
    }

    @PostMapping("/stock/{id}/supply/edit")
    String save(
            @PathVariable StockItemId id,
            @ModelAttribute("form") SupplyForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                suppliers.save(form.toCommand(id));
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/stock/" + id + "/where";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return supply(catalogue.require(id), model, locale);
    }

    private String supply(StockItemView item, Model model, Locale locale) {
        List<Choice> choices = suppliers.all().stream()
                .map(supplier -> new Choice(supplier.id().toString(), supplier.name()))
                .toList();
        model.addAttribute("suppliers", choices);
        model.addAttribute("item", item);
        model.addAttribute("name", words.name(item, locale));
        model.addAttribute("itemUnit", words.unit(item.unit(), locale));
        model.addAttribute("currency", business.current().currency().getCode());
        return "stock/supply";
    }
}
