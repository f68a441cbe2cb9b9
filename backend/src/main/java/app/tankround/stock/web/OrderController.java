package app.tankround.stock.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.Days;
import app.tankround.persistence.Uuids;
import app.tankround.reports.stockorder.StockOrder;
import app.tankround.reports.stockorder.StockOrderPdf;
import app.tankround.stock.Reorder;
import app.tankround.stock.SupplierId;
import app.tankround.stock.SupplierOrderId;
import app.tankround.stock.SupplierOrderView;
import app.tankround.stock.SupplierOrders;
import app.tankround.stock.SupplierView;
import app.tankround.stock.Suppliers;
import app.tankround.web.CsvText;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.text.NumberFormat;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Map.Entry;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What is to be ordered, the orders, and what came of them. */
@Controller
class OrderController {

    private static final int MOST_ORDERS = 100;

    /** An item in words; {@code point} is empty where nobody knows what goes in a week. */
    record Row(Reorder reorder, String name, String available, String weekly, String point, String pack, boolean due) {}

    /** Everything of one supplier. */
    record Group(SupplierView supplier, SupplierOrderId orderId, List<Row> rows, boolean due) {}

    /** An order in the list. */
    record Ordered(SupplierOrderView order, String day, String state) {}

    /** A line of an order in words. */
    record Line(SupplierOrderView.Line line, String name, String pack, String price) {}

    private final SupplierOrders orders;
    private final Suppliers suppliers;
    private final StockWords words;
    private final BusinessProfile business;
    private final Days days;
    private final MessageSource messages;
    private final Clock clock;

    OrderController(
            SupplierOrders orders,
            Suppliers suppliers,
            StockWords words,
            BusinessProfile business,
            Days days,
            MessageSource messages,
            Clock clock) {
        this.orders = orders;
        this.suppliers = suppliers;
        this.words = words;
        this.business = business;
        this.days = days;
        this.messages = messages;
        this.clock = clock;
    }

    @GetMapping("/stock/orders")
    String list(Model model, Locale locale) {
        model.addAttribute("form", new OrderForm());
        return list(locale, model);
    }

    private String list(Locale locale, Model model) {
        Map<SupplierId, List<Row>> rows = orders.reorders().stream()
                .map(reorder -> row(reorder, locale))
                .sorted((one, other) -> one.name().compareToIgnoreCase(other.name()))
                .collect(Collectors.groupingBy(row -> row.reorder().supply().supplier()));
        model.addAttribute(
                "groups",
                suppliers.all().stream()
                        .map(supplier -> group(supplier, rows.getOrDefault(supplier.id(), List.of())))
                        .toList());
        model.addAttribute(
                "orders",
                orders.all(MOST_ORDERS).stream()
                        .map(order -> new Ordered(order, Days.day(order.orderedOn(), locale), state(order)))
                        .toList());
        return "stock/orders";
    }

    private Group group(SupplierView supplier, List<Row> rows) {
        return new Group(
                supplier,
                SupplierOrderId.of(Uuids.next(clock.instant())),
                rows,
                rows.stream().anyMatch(Row::due));
    }

    private static String state(SupplierOrderView order) {
        if (!order.open()) {
            return "CAME";
        }
        return order.deliveries().isEmpty() ? "OPEN" : "PART";
    }

    private Row row(Reorder reorder, Locale locale) {
        String unit = reorder.item().unit();
        return new Row(
                reorder,
                words.name(reorder.item(), locale),
                words.amount(reorder.available(), unit, locale),
                reorder.weekly().map(use -> words.amount(use, unit, locale)).orElse(""),
                reorder.point().isPresent()
                        ? words.amount(BigDecimal.valueOf(reorder.point().getAsInt()), unit, locale)
                        : "",
                reorder.supply().packName() + ", "
                        + words.amount(reorder.supply().packAmount(), unit, locale),
                reorder.packs() > 0);
    }

    @PostMapping("/stock/orders")
    String order(
            @ModelAttribute("form") OrderForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                SupplierOrderId id = Optional.ofNullable(form.getId())
                        .orElseThrow(() -> new FieldRefusal("supplier", "stock.choice-missing"));
                SupplierId supplier = Optional.ofNullable(form.getSupplier())
                        .orElseThrow(() -> new FieldRefusal("supplier", "stock.choice-missing"));
                orders.order(id, supplier, form.packs(), Optional.ofNullable(form.getNote()));
                redirect.addFlashAttribute("flash", "stock.ordered");
                return "redirect:/stock/orders/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return list(locale, model);
    }

    @GetMapping("/stock/orders/{id}")
    String order(@PathVariable SupplierOrderId id, Model model, Locale locale) {
        SupplierOrderView order = orders.require(id);
        model.addAttribute("form", DeliveryForm.of(Uuids.next(clock.instant()), days.of(clock.instant()), order));
        return order(order, model, locale);
    }

    @PostMapping("/stock/orders/{id}")
    String receive(
            @PathVariable SupplierOrderId id,
            @ModelAttribute("form") DeliveryForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                orders.receive(form.toCommand(id));
                redirect.addFlashAttribute("flash", "stock.received");
                return "redirect:/stock/orders/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return order(orders.require(id), model, locale);
    }

    private String order(SupplierOrderView order, Model model, Locale locale) {
        model.addAttribute("order", order);
        model.addAttribute("day", Days.day(order.orderedOn(), locale));
        model.addAttribute(
                "lines", order.lines().stream().map(line -> line(line, locale)).toList());
        model.addAttribute(
                "deliveries",
                order.deliveries().stream()
                        .map(delivery -> delivery.noteNumber() + ", " + Days.day(delivery.receivedOn(), locale))
                        .toList());
        return "stock/order";
    }

    private Line line(SupplierOrderView.Line line, Locale locale) {
        return new Line(
                line,
                words.name(line.item(), locale),
                line.packName() + ", "
                        + words.amount(line.packAmount(), line.item().unit(), locale),
                line.packPrice().map(price -> money(price, locale)).orElse(""));
    }

    private String money(BigDecimal amount, Locale locale) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMinimumFractionDigits(2);
        return format.format(amount) + " " + business.current().currency().getCode();
    }

    /** In the language of the business, which is who writes. */
    @GetMapping("/stock/orders/{id}/order.pdf")
    ResponseEntity<byte[]> pdf(@PathVariable SupplierOrderId id) {
        SupplierOrderView order = orders.require(id);
        BusinessSettings settings = business.current();
        Locale locale = settings.locale();
        String title = messages.getMessage("stock.order", new Object[] {order.number()}, locale);
        List<Entry<String, String>> particulars = new ArrayList<>();
        particulars.add(
                Map.entry(words.word("stock.supplier", locale), order.supplier().name()));
        particulars.add(Map.entry(words.word("stock.ordered-on", locale), Days.day(order.orderedOn(), locale)));
        order.supplier()
                .customerNumber()
                .ifPresent(number -> particulars.add(Map.entry(words.word("stock.customer-number", locale), number)));
        StockOrder written = new StockOrder(
                locale,
                clock.instant(),
                settings.name(),
                Stream.of(settings.address(), settings.phone(), settings.email())
                        .flatMap(Optional::stream)
                        .toList(),
                title,
                particulars,
                Stream.of("stock.column.item", "stock.supplier-code", "stock.packs", "stock.pack", "stock.price")
                        .map(key -> words.word(key, locale))
                        .toList(),
                order.lines().stream()
                        .map(line -> line(line, locale))
                        .map(line -> new StockOrder.Line(
                                line.name(),
                                line.line().supplierCode().orElse(""),
                                String.valueOf(line.line().packs()),
                                line.pack(),
                                line.price()))
                        .toList(),
                order.note().orElse(""),
                (page, pages) -> messages.getMessage("stock.order.page", new Object[] {page, pages}, locale));
        return file(StockOrderPdf.write(written), MediaType.APPLICATION_PDF, "order-" + order.number() + ".pdf");
    }

    /** UTF-8 as RFC 4180: a header, CRLF, one row an item; numbers are plain decimals. */
    @GetMapping("/stock/orders/{id}/order.csv")
    ResponseEntity<byte[]> csv(@PathVariable SupplierOrderId id) {
        SupplierOrderView order = orders.require(id);
        StringBuilder text = new StringBuilder(CsvText.line(List.of(
                "order",
                "ordered_on",
                "supplier_code",
                "item",
                "packs",
                "pack",
                "units_in_pack",
                "unit",
                "pack_price")));
        order.lines()
                .forEach(line -> text.append(CsvText.line(List.of(
                        String.valueOf(order.number()),
                        order.orderedOn().toString(),
                        line.supplierCode().orElse(""),
                        words.name(line.item(), Locale.ENGLISH),
                        String.valueOf(line.packs()),
                        line.packName(),
                        line.packAmount().toPlainString(),
                        line.item().unit(),
                        line.packPrice().map(BigDecimal::toPlainString).orElse("")))));
        return file(
                text.toString().getBytes(StandardCharsets.UTF_8),
                new MediaType("text", "csv", StandardCharsets.UTF_8),
                "order-" + order.number() + ".csv");
    }

    private static ResponseEntity<byte[]> file(byte[] content, MediaType type, String name) {
        return ResponseEntity.ok()
                .contentType(type)
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment().filename(name).build().toString())
                .body(content);
    }
}
