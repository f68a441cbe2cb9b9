package app.tankround.stock.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Days;
import app.tankround.persistence.Uuids;
import app.tankround.stock.Catalogue;
import app.tankround.stock.Lots;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLotId;
import app.tankround.units.Mass;
import app.tankround.units.Quantity;
import app.tankround.units.UnitSystem;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.text.NumberFormat;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What is on the shelf, and its count. */
@Controller
class StockController {

    /** A line of the list; {@code index} is its place in the form of the count. */
    record Row(int index, StockItemView item, String name, String unit, String mass, String counted) {}

    /** Everything of one kind. */
    record Group(String title, List<Row> rows) {}

    /** A lot that has expired or soon will. */
    record Watched(StockLotId id, String said, boolean expired) {}

    /** Common practice, no source. */
    static final int SOON_DAYS = 30;

    /** A millilitre of a solution weighs about 0.0011 kg. */
    private static final int MASS_DECIMALS = 4;

    private final Catalogue catalogue;
    private final Lots lots;
    private final StockWords words;
    private final BusinessProfile business;
    private final Days days;
    private final MessageSource messages;
    private final Clock clock;

    StockController(
            Catalogue catalogue,
            Lots lots,
            StockWords words,
            BusinessProfile business,
            Days days,
            MessageSource messages,
            Clock clock) {
        this.catalogue = catalogue;
        this.lots = lots;
        this.words = words;
        this.business = business;
        this.days = days;
        this.messages = messages;
        this.clock = clock;
    }

    @ModelAttribute("kinds")
    List<Choice> kinds(Locale locale) {
        return Arrays.stream(StockKind.values())
                .map(kind -> new Choice(kind.name(), words.kind(kind, locale)))
                .toList();
    }

    @ModelAttribute("quantities")
    List<Choice> quantities(Locale locale) {
        return Quantity.read().stream()
                .map(quantity -> new Choice(quantity.name(), word("quantity." + quantity, locale)))
                .toList();
    }

    @ModelAttribute("units")
    List<Choice> units(Locale locale) {
        return Stream.of("kg", "g", "L", "mL", "count")
                .map(unit -> new Choice(unit, words.unit(unit, locale)))
                .toList();
    }

    @GetMapping("/stock")
    String list(Model model, Locale locale) {
        List<StockItemView> items = catalogue.all();
        model.addAttribute("form", CountForm.of(items));
        model.addAttribute("watch", watch(locale));
        model.addAttribute("groups", groups(items, locale));
        return "stock/list";
    }

    @PostMapping("/stock/count")
    String count(
            @ModelAttribute("form") CountForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                catalogue.count(form.toCommand());
                redirect.addFlashAttribute("flash", "stock.counted");
                return "redirect:/stock";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        List<StockItemView> sent = form.getCounts().stream()
                .map(CountForm.Line::getId)
                .filter(id -> id != null)
                .map(catalogue::require)
                .toList();
        model.addAttribute("watch", watch(locale));
        model.addAttribute("groups", groups(sent, locale));
        return "stock/list";
    }

    @GetMapping("/stock/new")
    String blank(Model model) {
        model.addAttribute("form", StockForm.blank(StockItemId.of(Uuids.next(clock.instant()))));
        model.addAttribute("known", false);
        return "stock/item";
    }

    @PostMapping("/stock/new")
    String add(@ModelAttribute("form") StockForm form, BindingResult result, Model model, RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                StockItemId id = Optional.ofNullable(form.id()).orElseThrow(() -> new NotFound("stock-item", ""));
                catalogue.add(id, form.toCommand());
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/stock";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        model.addAttribute("known", false);
        return "stock/item";
    }

    @GetMapping("/stock/{id}")
    String item(@PathVariable StockItemId id, Model model) {
        model.addAttribute("form", StockForm.of(catalogue.require(id)));
        model.addAttribute("known", true);
        model.addAttribute("itemId", id);
        return "stock/item";
    }

    @PostMapping("/stock/{id}")
    String change(
            @PathVariable StockItemId id,
            @ModelAttribute("form") StockForm form,
            BindingResult result,
            Model model,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                catalogue.change(id, form.version(), form.toDetails());
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/stock";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        model.addAttribute("known", true);
        model.addAttribute("itemId", id);
        return "stock/item";
    }

    private List<Watched> watch(Locale locale) {
        LocalDate today = days.of(clock.instant());
        return lots.expiringUntil(today.plusDays(SOON_DAYS)).stream()
                .map(each -> {
                    StockItemView item = catalogue.require(each.lot().item());
                    boolean expired = each.lot().expiredOn(today);
                    return new Watched(
                            each.lot().id(),
                            messages.getMessage(
                                    expired ? "stock.lots.expired" : "stock.lots.soon",
                                    new Object[] {
                                        words.name(item, locale),
                                        each.lot().number(),
                                        words.amount(each.amount(), item.unit(), locale),
                                        Days.day(each.lot().expiresOn().orElseThrow(), locale)
                                    },
                                    locale),
                            expired);
                })
                .toList();
    }

    private List<Group> groups(List<StockItemView> items, Locale locale) {
        List<Group> groups = new ArrayList<>();
        for (StockKind kind : StockKind.values()) {
            List<Row> rows = new ArrayList<>();
            for (int i = 0; i < items.size(); i++) {
                StockItemView item = items.get(i);
                if (item.kind() == kind) {
                    rows.add(new Row(
                            i,
                            item,
                            words.name(item, locale),
                            words.unit(item.unit(), locale),
                            mass(item.unitMass(), locale),
                            days.day(item.countedAt(), locale)));
                }
            }
            if (!rows.isEmpty()) {
                groups.add(new Group(words.kind(kind, locale), rows));
            }
        }
        return groups;
    }

    private String mass(Mass mass, Locale locale) {
        boolean customary = business.current().unitSystem() == UnitSystem.US_CUSTOMARY;
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(MASS_DECIMALS);
        return customary ? format.format(mass.inPounds()) + " lb" : format.format(mass.kilograms()) + " kg";
    }

    private String word(String key, Locale locale) {
        return messages.getMessage(key, null, locale);
    }
}
