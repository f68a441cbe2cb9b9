package app.tankround.stock.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Days;
import app.tankround.accounts.Fleet;
import app.tankround.clients.SiteService;
import app.tankround.persistence.Uuids;
import app.tankround.stock.Catalogue;
import app.tankround.stock.LotUse;
import app.tankround.stock.Lots;
import app.tankround.stock.Recall;
import app.tankround.stock.Receiving;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockBalance;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockLabels;
import app.tankround.stock.StockLedger;
import app.tankround.stock.StockLotId;
import app.tankround.stock.StockLotView;
import app.tankround.stock.StockMovementView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.text.NumberFormat;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Where an item is and where it went; what moves it; and where a lot went that is called back. */
@Controller
class PlaceController {

    private static final int MOST_MOVEMENTS = 60;

    /** Something at a place; {@code expiry} is empty where it has none, {@code state} where nothing is wrong. */
    record Place(String where, String lot, Optional<StockLotId> lotId, String amount, String expiry, String state) {}

    /** A movement in words. */
    record Moved(String when, String amount, String from, String to, String why, String who, boolean ahead) {}

    /** Where something of a lot went. */
    record Went(String site, String system, String address, String amount, String how, String when) {}

    private final Catalogue catalogue;
    private final StockLedger ledger;
    private final Lots lots;
    private final Receiving receiving;
    private final StockLabels labels;
    private final StockWords words;
    private final Fleet fleet;
    private final SiteService sites;
    private final WaterSystems systems;
    private final BusinessProfile business;
    private final Days days;
    private final Clock clock;

    PlaceController(
            Catalogue catalogue,
            StockLedger ledger,
            Lots lots,
            Receiving receiving,
            StockLabels labels,
            StockWords words,
            Fleet fleet,
            SiteService sites,
            WaterSystems systems,
            BusinessProfile business,
            Days days,
            Clock clock) {
        this.catalogue = catalogue;
        this.ledger = ledger;
        this.lots = lots;
        this.receiving = receiving;
        this.labels = labels;
        this.words = words;
        this.fleet = fleet;
        this.sites = sites;
        this.systems = systems;
        this.business = business;
        this.days = days;
        this.clock = clock;
    }

    @GetMapping("/stock/{id}/where")
    String where(@PathVariable StockItemId id, Model model, Locale locale) {
        show(id, model, locale);
        model.addAttribute("form", MoveForm.blank(Uuids.next(clock.instant())));
        return "stock/where";
    }

    @PostMapping("/stock/{id}/where")
    String move(
            @PathVariable StockItemId id,
            @ModelAttribute("form") MoveForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                ledger.take(form.toCommand(id));
                redirect.addFlashAttribute("flash", "stock.moved");
                return "redirect:/stock/" + id + "/where";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        show(id, model, locale);
        return "stock/where";
    }

    @GetMapping("/stock/{id}/receipts/new")
    String receipt(@PathVariable StockItemId id, Model model, Locale locale) {
        model.addAttribute("form", ReceiptForm.blank(Uuids.next(clock.instant()), days.of(clock.instant())));
        return receipt(catalogue.require(id), model, locale);
    }

    @PostMapping("/stock/{id}/receipts/new")
    String receive(
            @PathVariable StockItemId id,
            @ModelAttribute("form") ReceiptForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                receiving.receive(form.toCommand(id));
                redirect.addFlashAttribute("flash", "stock.received");
                return "redirect:/stock/" + id + "/where";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return receipt(catalogue.require(id), model, locale);
    }

    @GetMapping("/stock/lots/{id}/recall")
    String recall(@PathVariable StockLotId id, Model model, Locale locale) {
        Recall recall = lots.recall(id);
        StockItemView item = recall.item();
        LocalDate today = days.of(clock.instant());
        model.addAttribute("item", item);
        model.addAttribute("name", words.name(item, locale));
        model.addAttribute("lot", recall.lot());
        model.addAttribute("received", Days.day(recall.lot().receivedOn(), locale));
        model.addAttribute("expiry", expiry(Optional.of(recall.lot()), locale));
        model.addAttribute("state", state(Optional.of(recall.lot()), today));
        model.addAttribute(
                "there",
                recall.there().stream()
                        .map(balance -> place(balance, Map.of(recall.lot().id(), recall.lot()), item, today, locale))
                        .toList());
        model.addAttribute("certain", went(recall, true, locale));
        model.addAttribute("possible", went(recall, false, locale));
        model.addAttribute(
                "clients",
                recall.went().stream().map(use -> site(use)).distinct().sorted().toList());
        return "stock/recall";
    }

    private List<Went> went(Recall recall, boolean certain, Locale locale) {
        return recall.went().stream()
                .filter(use -> use.certain() == certain)
                .map(use -> new Went(
                        site(use),
                        use.system()
                                .flatMap(systems::find)
                                .map(system -> system.name())
                                .orElse(""),
                        use.system().map(system -> "/systems/" + system).orElse("/sites/" + use.site()),
                        words.amount(use.amount(), use.unit(), locale),
                        words.word(use.what(), locale),
                        days.moment(use.at(), locale)))
                .toList();
    }

    private String site(LotUse use) {
        return sites.find(use.site()).map(site -> site.title()).orElse("");
    }

    private String receipt(StockItemView item, Model model, Locale locale) {
        model.addAttribute("item", item);
        model.addAttribute("name", words.name(item, locale));
        model.addAttribute("itemUnit", words.unit(item.unit(), locale));
        model.addAttribute("currency", business.current().currency().getCode());
        return "stock/receipt";
    }

    private void show(StockItemId id, Model model, Locale locale) {
        StockItemView item = catalogue.require(id);
        Map<StockLotId, StockLotView> ofItem =
                lots.of(id).stream().collect(Collectors.toMap(StockLotView::id, Function.identity()));
        LocalDate today = days.of(clock.instant());
        List<StockBalance> balances = ledger.balances(id);
        model.addAttribute("item", item);
        model.addAttribute("name", words.name(item, locale));
        model.addAttribute("itemUnit", words.unit(item.unit(), locale));
        model.addAttribute(
                "places",
                balances.stream()
                        .filter(balance -> balance.account().kind().isPlace())
                        .sorted(Comparator.comparing(
                                balance -> balance.account().kind()))
                        .map(balance -> place(balance, ofItem, item, today, locale))
                        .toList());
        model.addAttribute("label", labels.of(id));
        model.addAttribute("worth", worth(item, balances, locale));
        model.addAttribute(
                "movements",
                ledger.movements(id, MOST_MOVEMENTS).stream()
                        .map(movement -> moved(movement, ofItem, item, locale))
                        .toList());
        model.addAttribute("fromChoices", from(balances, locale));
        model.addAttribute("toChoices", to(locale));
        model.addAttribute(
                "lotChoices",
                lots.of(id).stream()
                        .filter(lot -> balances.stream()
                                .anyMatch(balance -> balance.lot().equals(Optional.of(lot.id()))
                                        && balance.account().kind().isPlace()))
                        .map(lot -> new Choice(
                                lot.id().toString(),
                                Stream.of(lot.number(), expiry(Optional.of(lot), locale))
                                        .filter(part -> !part.isEmpty())
                                        .collect(Collectors.joining(", "))))
                        .toList());
    }

    private Place place(
            StockBalance balance,
            Map<StockLotId, StockLotView> ofItem,
            StockItemView item,
            LocalDate today,
            Locale locale) {
        Optional<StockLotView> lot = balance.lot().map(ofItem::get);
        boolean ahead = balance.amount().signum() < 0;
        return new Place(
                words.account(balance.account(), locale),
                lot.map(StockLotView::number).orElse(""),
                balance.lot(),
                words.amount(balance.amount(), item.unit(), locale),
                expiry(lot, locale),
                ahead ? "AHEAD" : state(lot, today));
    }

    private static String expiry(Optional<StockLotView> lot, Locale locale) {
        return lot.flatMap(StockLotView::expiresOn)
                .map(day -> Days.day(day, locale))
                .orElse("");
    }

    private static String state(Optional<StockLotView> lot, LocalDate today) {
        if (lot.filter(some -> some.expiredOn(today)).isPresent()) {
            return "EXPIRED";
        }
        return lot.filter(some -> some.expiredOn(today.plusDays(StockController.SOON_DAYS)))
                        .isPresent()
                ? "SOON"
                : "";
    }

    private Optional<String> worth(StockItemView item, List<StockBalance> balances, Locale locale) {
        BigDecimal owned = balances.stream()
                .filter(balance -> balance.account().kind().isOurs())
                .map(StockBalance::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add);
        return receiving
                .unitValue(item.id())
                .map(value -> money(value, locale) + " × " + words.amount(owned, item.unit(), locale) + " = "
                        + money(value.multiply(owned), locale));
    }

    private String money(BigDecimal amount, Locale locale) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMinimumFractionDigits(2);
        format.setMaximumFractionDigits(2);
        return format.format(amount) + " " + business.current().currency().getCode();
    }

    private Moved moved(
            StockMovementView movement, Map<StockLotId, StockLotView> ofItem, StockItemView item, Locale locale) {
        String lot = movement.lot()
                .map(ofItem::get)
                .map(StockLotView::number)
                .map(number -> ", " + words.word("stock.lot", locale) + " " + number)
                .orElse("");
        String why = words.word("stock.reason." + movement.reason(), locale);
        return new Moved(
                days.moment(movement.at(), locale),
                words.amount(movement.amount(), item.unit(), locale) + lot,
                words.account(movement.from(), locale),
                words.account(movement.to(), locale),
                movement.note().map(note -> why + ": " + note).orElse(why),
                movement.person().orElse(""),
                movement.runsAhead());
    }

    private List<Choice> from(List<StockBalance> balances, Locale locale) {
        return Stream.concat(
                        Stream.of(StockAccount.depot()),
                        balances.stream()
                                .filter(balance -> balance.account().kind().isPlace())
                                .filter(balance -> balance.amount().signum() > 0)
                                .map(StockBalance::account))
                .distinct()
                .map(account -> new Choice(account.code(), words.account(account, locale)))
                .toList();
    }

    private List<Choice> to(Locale locale) {
        List<StockAccount> accounts = new ArrayList<>(List.of(StockAccount.depot()));
        fleet.vans().forEach(van -> accounts.add(StockAccount.van(van.id())));
        Stream.of(
                        StockAccountKind.USED,
                        StockAccountKind.WASTED,
                        StockAccountKind.BROKEN,
                        StockAccountKind.LOST,
                        StockAccountKind.RETIRED,
                        StockAccountKind.SENT_BACK)
                .map(StockAccount::of)
                .forEach(accounts::add);
        return accounts.stream()
                .map(account -> new Choice(account.code(), words.account(account, locale)))
                .toList();
    }
}
